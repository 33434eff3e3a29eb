// A placed sheet shown in one state: how every line is, which way the oil runs, what its pressure and flow are.
#pragma once

#include "render/condition_look.hpp"
#include "render/drawing.hpp"
#include "render/nets.hpp"
#include "render/sheet/title_block.hpp"
#include "render/sketch.hpp"

namespace ferrule {

// How the oil of a net is. What lies open in a reservoir is neither fed nor blocked there, whatever else the reservoir joins.
LineState line_state_of(const Circuit& circuit, const CircuitNets& nets, const CircuitNet& net, const StateView& view);

// Conditions and arrows of the nets; pressure and flow beside every line that has room for them; tags of solenoids follow
// their valve. What finds no room is left out and stays in the table of `solve`.
void show_state(DrawnSheet& page, const Sketch& sketch, const Circuit& circuit, const StateView& view, const Drawing& drawing);

// The name of the state and what the kinds of lines on the page mean.
sheet::Panel state_legend(const DrawnSheet& page, const Sketch& sketch, const StateView& view, const Drawing& drawing);

}  // namespace ferrule
