#include "render/layout/least_sum.hpp"

#include <algorithm>
#include <cstdlib>
#include <limits>

namespace ferrule::layout {

namespace {

using Flow = long long;
constexpr Flow unbounded = 1LL << 50;

// Maximum flow by blocking flows (Dinic); the source side of the cut is what is asked for.
struct Cut {
  struct Edge { int to; Flow left; };
  std::vector<Edge> edges;
  std::vector<std::vector<int>> out;
  std::vector<int> depth, next;

  explicit Cut(std::size_t n) : out(n), depth(n), next(n) {}

  void join(int a, int b, Flow forward, Flow back = 0) {
    out[a].push_back(int(edges.size())), edges.push_back({b, forward});
    out[b].push_back(int(edges.size())), edges.push_back({a, back});
  }

  bool reach(int source, int sink) {
    std::fill(depth.begin(), depth.end(), -1);
    std::vector<int> queue{source};
    depth[source] = 0;
    for (std::size_t i = 0; i < queue.size(); ++i)
      for (const int e : out[queue[i]])
        if (edges[e].left > 0 && depth[edges[e].to] < 0) depth[edges[e].to] = depth[queue[i]] + 1, queue.push_back(edges[e].to);
    return depth[sink] >= 0;
  }

  // One augmenting path along growing depth, without recursion; 0 when there is none left.
  Flow push(int source, int sink) {
    std::vector<int> path;
    int at = source;
    while (at != sink) {
      int& i = next[at];
      for (; i < int(out[at].size()); ++i)
        if (const Edge& e = edges[out[at][i]]; e.left > 0 && depth[e.to] == depth[at] + 1) break;
      if (i < int(out[at].size())) {
        path.push_back(out[at][i]);
        at = edges[path.back()].to;
      } else if (path.empty()) {
        return 0;
      } else {
        at = edges[path.back() ^ 1].to;
        path.pop_back();
        ++next[at];
      }
    }
    Flow least = unbounded;
    for (const int e : path) least = std::min(least, edges[e].left);
    for (const int e : path) edges[e].left -= least, edges[e ^ 1].left += least;
    return least;
  }

  Flow run(int source, int sink) {
    Flow total = 0;
    while (reach(source, sink)) {
      std::fill(next.begin(), next.end(), 0);
      while (const Flow flow = push(source, sink)) total += flow;
    }
    return total;
  }
};

struct Descent {
  std::vector<int>& x;
  const std::vector<Gap>& gaps;
  const std::vector<Pull>& pulls;

  // Moves the set whose common shift by `step` saves most; false when none saves anything.
  bool move(int step) {
    const int n = int(x.size());
    Cut cut(n + 2);
    std::vector<Flow> alone(n, 0);
    for (const Pull& pull : pulls) {
      const int gap = x[pull.a] + pull.offset - x[pull.b];
      const Flow only_a = Flow(pull.weight) * (std::abs(gap + step) - std::abs(gap));
      const Flow only_b = Flow(pull.weight) * (std::abs(gap - step) - std::abs(gap));
      alone[pull.a] += only_a, alone[pull.b] -= only_a;
      if (only_a + only_b > 0) cut.join(pull.b, pull.a, only_a + only_b);   // b moves, a stays
    }
    for (const Gap& gap : gaps) {
      if (x[gap.b] - x[gap.a] - std::abs(step) >= gap.least) continue;
      if (step > 0) cut.join(gap.a, gap.b, unbounded);
      else cut.join(gap.b, gap.a, unbounded);
    }
    Flow saving = 0;
    for (int i = 0; i < n; ++i) {
      if (alone[i] < 0) cut.join(n, i, -alone[i]), saving -= alone[i];
      if (alone[i] > 0) cut.join(i, n + 1, alone[i]);
    }
    if (saving == 0 || cut.run(n, n + 1) >= saving) return false;
    cut.reach(n, n + 1);
    for (int i = 0; i < n; ++i)
      if (cut.depth[i] >= 0) x[i] += step;
    return true;
  }
};

// One sweep of medians: every position goes where its pulls balance, as far as its neighbours let it.
void sweep(std::vector<int>& x, const std::vector<std::vector<Gap>>& before, const std::vector<std::vector<Gap>>& after,
           const std::vector<std::vector<Pull>>& of, int grid) {
  for (std::size_t i = 0; i < x.size(); ++i) {
    if (of[i].empty()) continue;
    std::vector<std::pair<int, int>> wishes;
    int total = 0;
    for (const Pull& pull : of[i]) {
      const bool first = pull.a == int(i);
      wishes.push_back({first ? x[pull.b] - pull.offset : x[pull.a] + pull.offset, pull.weight});
      total += pull.weight;
    }
    std::sort(wishes.begin(), wishes.end());
    int sum = 0;
    std::size_t k = 0;
    while (2 * (sum += wishes[k].second) < total) ++k;
    int low = std::numeric_limits<int>::min(), high = std::numeric_limits<int>::max();
    for (const Gap& gap : before[i]) low = std::max(low, x[gap.a] + gap.least);
    for (const Gap& gap : after[i]) high = std::min(high, x[gap.b] - gap.least);
    const int wish = wishes[k].first / grid * grid;
    if (low <= high) x[i] = std::clamp(wish, low, high);
  }
}

void sweeps(std::vector<int>& x, const std::vector<Gap>& gaps, const std::vector<Pull>& pulls, int grid) {
  std::vector<std::vector<Gap>> before(x.size()), after(x.size());
  std::vector<std::vector<Pull>> of(x.size());
  for (const Gap& gap : gaps) before[gap.b].push_back(gap), after[gap.a].push_back(gap);
  for (const Pull& pull : pulls) of[pull.a].push_back(pull), of[pull.b].push_back(pull);
  for (int i = 0; i < 12; ++i) sweep(x, before, after, of, grid);
}

bool all_even(const std::vector<int>& x, const std::vector<Gap>& gaps, const std::vector<Pull>& pulls) {
  const auto odd = [](int v) { return v % 2 != 0; };
  return std::none_of(x.begin(), x.end(), odd) && std::none_of(gaps.begin(), gaps.end(), [&](const Gap& g) { return odd(g.least); }) &&
         std::none_of(pulls.begin(), pulls.end(), [&](const Pull& p) { return odd(p.offset); });
}

}  // namespace

void settle(std::vector<int>& x, const std::vector<Gap>& gaps, const std::vector<Pull>& pulls, std::size_t exact) {
  const int grid = all_even(x, gaps, pulls) ? 2 : 1;
  sweeps(x, gaps, pulls, grid);
  if (x.size() > exact) return;
  Descent descent{x, gaps, pulls};
  for (int step = 64; step >= grid; step /= 2)
    for (int tries = 0; tries < 60; ++tries) {
      const bool right = descent.move(step), left = descent.move(-step);
      if (!right && !left) break;
    }
}

}  // namespace ferrule::layout
