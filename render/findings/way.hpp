// Where a finding's path runs on a page. Internal to render/findings.
#pragma once

#include "render/drawing.hpp"

namespace ferrule {

// A word of a path as the page knows it.
struct Station {
  std::string tag, port;         // port empty: the part, by whichever port
  bool pipe = false;
};

Station station_of(const DrawnSheet& page, const std::string& word);

// Places of the ports that are meant; every mark of a reservoir is the reservoir.
std::vector<sheet::Point> places_of(const DrawnSheet& page, const Station& station);

// The ink from one station to the next along one net, as one polyline; empty when they share no net on this page.
std::vector<sheet::Point> between(const DrawnSheet& page, const Station& from, const Station& to);

// The ink from a port to the mark where its net leaves the sheet; empty when it does not.
std::vector<sheet::Point> off_the_sheet(const DrawnSheet& page, const Station& from);

// Every path that stands for the pipe.
std::vector<std::vector<sheet::Point>> pipe_paths(const DrawnSheet& page, const std::string& tag);

}  // namespace ferrule
