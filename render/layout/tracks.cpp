// Step 7: in every channel, one net's horizontal pieces on tracks, so that pieces that overlap lie on different tracks, no two
// verticals lie on each other, and few lines cross.
#include <algorithm>
#include <map>

#include "render/layout/plan.hpp"

namespace ferrule::layout {

namespace {

constexpr long prohibitive = 100000;   // two verticals on one another
constexpr int clear_ends = 2;          // ends on one track at least 1 M apart

void collect_drops(Plan& plan) {
  std::map<std::pair<int, int>, std::size_t> known;     // (channel, key) -> bundle
  const auto drop = [&](int channel, int net, int strand, int x, bool above) {
    Channel& in = plan.channels[channel + 1];
    const bool joint = plan.net_strands[net].size() > 1 && plan.home[net] == channel;
    const int key = joint ? -net - 1 : strand;
    const auto [found, fresh] = known.try_emplace({channel, key}, in.bundles.size());
    if (fresh) in.bundles.push_back({net, channel, {}, 0, 0});
    Drop entry;
    entry.x = x;
    (above ? entry.above : entry.below) = true;
    in.bundles[found->second].drops.push_back(entry);
  };
  for (std::size_t s = 0; s < plan.strands.size(); ++s) {
    const Strand& strand = plan.strands[s];
    for (const int t : strand.taps) {
      const Tap& tap = plan.taps[t];
      if (tap.way != Way::up && tap.way != Way::down) continue;
      drop(channel_of(plan, tap), strand.net, int(s), plan.nodes[tap.node].x + tap.lane, tap.way == Way::down);
    }
    for (const int slot : strand.slots) {
      drop(plan.slots[slot].row, strand.net, int(s), plan.slots[slot].x, false);
      drop(plan.slots[slot].row - 1, strand.net, int(s), plan.slots[slot].x, true);
    }
  }
}

// Drops by x; one from above and one from below at the same x are one line straight through.
void merge_drops(Bundle& bundle) {
  std::stable_sort(bundle.drops.begin(), bundle.drops.end(), [](const Drop& a, const Drop& b) { return a.x < b.x; });
  std::vector<Drop> merged;
  for (const Drop& drop : bundle.drops) {
    if (merged.empty() || merged.back().x != drop.x) {
      merged.push_back(drop);
      continue;
    }
    Drop& last = merged.back();
    last.above = last.above || drop.above, last.below = last.below || drop.below;
  }
  bundle.drops = std::move(merged);
}

// The trunk, cut where a line goes straight through it: two tees one under the other instead of a four-way joint.
void cut_trunk(Channel& channel, int b) {
  Bundle& bundle = channel.bundles[b];
  bundle.first_piece = int(channel.pieces.size());
  int left = bundle.drops.front().x;
  for (std::size_t i = 1; i < bundle.drops.size(); ++i) {
    const Drop& drop = bundle.drops[i];
    const bool through = drop.above && drop.below;
    if (!through && i + 1 < bundle.drops.size()) continue;
    channel.pieces.push_back({b, bundle.net, left, drop.x, 0});
    left = drop.x;
  }
  bundle.pieces = int(channel.pieces.size()) - bundle.first_piece;
}

struct Orderer {
  const Plan& plan;
  Channel& channel;
  // Per bundle: x of what comes from above and of what comes from below.
  std::vector<std::vector<int>> above, below;
  std::vector<double> place;          // by piece: its height in the order
  std::vector<int> settled;

  void read_drops() {
    above.resize(channel.bundles.size()), below.resize(channel.bundles.size());
    for (std::size_t b = 0; b < channel.bundles.size(); ++b)
      for (const Drop& drop : channel.bundles[b].drops) {
        if (drop.above) above[b].push_back(drop.x);
        if (drop.below) below[b].push_back(drop.x);
      }
  }

  static long inside(const std::vector<int>& xs, int left, int right) {
    return std::lower_bound(xs.begin(), xs.end(), right) - std::upper_bound(xs.begin(), xs.end(), left);
  }

  // How many of `b` come from below and of `a` from above at one x, inside both pieces.
  long on_one_another(const Piece& a, const Piece& b) const {
    const auto &down = above[a.bundle], &up = below[b.bundle];
    const int left = std::max(a.left, b.left), right = std::min(a.right, b.right);
    auto i = std::lower_bound(down.begin(), down.end(), left);
    auto j = std::lower_bound(up.begin(), up.end(), left);
    long count = 0;
    while (i != down.end() && j != up.end() && *i <= right && *j <= right) {
      if (*i == *j) ++count, ++i, ++j;
      else *i < *j ? ++i : ++j;
    }
    return count;
  }

  // Crossings when piece a lies below piece b.
  long cost(const Piece& a, const Piece& b) const {
    if (a.bundle == b.bundle) return 0;
    long sum = 0;
    const int bl = std::max(b.left, a.left), br = std::min(b.right, a.right);
    if (bl > br) return 0;
    sum += count_drops(below[b.bundle], b, a) + count_drops(above[a.bundle], a, b);
    return sum + prohibitive * on_one_another(a, b);
  }

  // Drops that belong to `own` and pass strictly inside `other`.
  static long count_drops(const std::vector<int>& xs, const Piece& own, const Piece& other) {
    const int left = std::max(own.left - 1, other.left), right = std::min(own.right + 1, other.right);
    return left < right ? inside(xs, left, right) : 0;
  }

  static bool near(const Piece& a, const Piece& b) {
    return a.left <= b.right + clear_ends && b.left <= a.right + clear_ends;
  }

  // Pressure and signals lie high, returns low where crossings say nothing (gold rule 9).
  bool prefers_top(const Piece& piece) const {
    const NetKind kind = plan.problem->nets[piece.net].kind;
    return kind == NetKind::pressure || kind == NetKind::pilot;
  }

  void insert(int p) {
    const Piece& piece = channel.pieces[p];
    std::vector<int> around;
    for (const int q : settled)
      if (near(piece, channel.pieces[q])) around.push_back(q);
    std::sort(around.begin(), around.end(), [&](int a, int b) { return place[a] < place[b]; });
    long now = 0;
    for (const int q : around) now += cost(piece, channel.pieces[q]);
    long least = now;
    std::size_t best = 0;
    for (std::size_t k = 0; k < around.size(); ++k) {
      const Piece& other = channel.pieces[around[k]];
      now += cost(other, piece) - cost(piece, other);
      if (now < least || (now == least && prefers_top(piece))) least = now, best = k + 1;
    }
    const double low = best > 0 ? place[around[best - 1]] : around.empty() ? 0 : place[around[0]] - 2;
    const double high = best < around.size() ? place[around[best]] : low + 2;
    place[p] = (low + high) / 2;
    settled.push_back(p);
    if (high - low < 1e-6) renumber();
  }

  void renumber() {
    std::vector<int> order = settled;
    std::sort(order.begin(), order.end(), [&](int a, int b) { return place[a] != place[b] ? place[a] < place[b] : a < b; });
    for (std::size_t i = 0; i < order.size(); ++i) place[order[i]] = double(i);
  }

  // Long pieces first: they decide, the short ones fit in.
  void run() {
    read_drops();
    place.assign(channel.pieces.size(), 0);
    std::vector<int> order(channel.pieces.size());
    for (std::size_t i = 0; i < order.size(); ++i) order[i] = int(i);
    const auto length = [&](int p) { return channel.pieces[p].right - channel.pieces[p].left; };
    std::stable_sort(order.begin(), order.end(), [&](int a, int b) { return length(a) > length(b); });
    for (const int p : order) insert(p);
    renumber();
    set_tracks();
  }

  void set_tracks() {
    std::vector<int> order = settled;
    std::sort(order.begin(), order.end(), [&](int a, int b) { return place[a] < place[b]; });
    std::vector<int> done;
    for (const int p : order) {
      Piece& piece = channel.pieces[p];
      piece.track = 0;
      for (const int q : done)
        if (near(piece, channel.pieces[q])) piece.track = std::max(piece.track, channel.pieces[q].track + 1);
      channel.tracks = std::max(channel.tracks, piece.track + 1);
      done.push_back(p);
    }
  }
};

// ---------------------------------------------------------------- steps aside

// A line from above that would lie on a line from below steps aside over all tracks of its channel. Rare: only when the order
// of the tracks is a ring.
struct StepAside {
  Channel& channel;
  std::vector<int> taken;       // every x with a vertical, sorted

  int lowest(int b, int x) const { return extreme(b, x, false); }
  int highest(int b, int x) const { return extreme(b, x, true); }

  int extreme(int b, int x, bool most) const {
    const Bundle& bundle = channel.bundles[b];
    int track = most ? -1 : 1 << 20;
    for (int p = bundle.first_piece; p < bundle.first_piece + bundle.pieces; ++p) {
      const Piece& piece = channel.pieces[p];
      if (piece.left > x || piece.right < x) continue;
      track = most ? std::max(track, piece.track) : std::min(track, piece.track);
    }
    return track;
  }

  int free_x(int x) const {
    for (int away = 2;; ++away)
      for (const int at : {x + away, x - away}) {
        const auto next = std::lower_bound(taken.begin(), taken.end(), at - 1);
        if (next == taken.end() || *next > at + 1) return at;
      }
  }

  bool run() {
    std::map<int, std::pair<int, int>> from_below;   // x -> (bundle, drop)
    for (std::size_t b = 0; b < channel.bundles.size(); ++b)
      for (std::size_t d = 0; d < channel.bundles[b].drops.size(); ++d) {
        const Drop& drop = channel.bundles[b].drops[d];
        taken.push_back(drop.x);
        if (drop.below && !drop.above) from_below[drop.x] = {int(b), int(d)};
      }
    std::sort(taken.begin(), taken.end());
    bool any = false;
    for (std::size_t b = 0; b < channel.bundles.size(); ++b)
      for (Drop& drop : channel.bundles[b].drops) {
        const auto other = from_below.find(drop.x);
        if (!drop.above || drop.below || other == from_below.end() || other->second.first == int(b)) continue;
        if (channel.bundles[b].pieces == 0 || channel.bundles[other->second.first].pieces == 0) continue;
        if (lowest(int(b), drop.x) > highest(other->second.first, drop.x)) continue;
        const int to = free_x(drop.x);
        taken.insert(std::lower_bound(taken.begin(), taken.end(), to), to);
        channel.jogs.push_back({int(b), drop.x, to, int(channel.jogs.size())});
        drop.x = to;
        any = true;
      }
    return any;
  }
};

// Drops that stepped aside stretch their trunk: cut and order again, keep the steps.
// Ends: a line that has stepped aside has an x of its own for good.
void lay(Plan& plan, Channel& channel) {
  for (;;) {
    channel.pieces.clear();
    channel.tracks = 0;
    for (std::size_t b = 0; b < channel.bundles.size(); ++b) {
      Bundle& bundle = channel.bundles[b];
      std::stable_sort(bundle.drops.begin(), bundle.drops.end(), [](const Drop& a, const Drop& c) { return a.x < c.x; });
      bundle.pieces = 0;
      if (bundle.drops.size() > 1) cut_trunk(channel, int(b));
    }
    Orderer{plan, channel, {}, {}, {}, {}}.run();
    if (!StepAside{channel, {}}.run()) return;
  }
}

}  // namespace

void lay_tracks(Plan& plan) {
  plan.channels.assign(plan.rows + 1, {});
  collect_drops(plan);
  for (Channel& channel : plan.channels) {
    for (Bundle& bundle : channel.bundles) merge_drops(bundle);
    lay(plan, channel);
  }
}

}  // namespace ferrule::layout
