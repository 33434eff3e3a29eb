#include "compiler/driver/memory.hpp"

#include <malloc.h>
#include <sys/mman.h>
#include <unistd.h>

#include <cstdint>
#include <cstdlib>

namespace ferrule {

void take_large_pages() {
  constexpr int ahead = 32 << 20;              // bytes by which the heap grows at a time
  constexpr std::uintptr_t page = 2u << 20;    // of the large kind
  mallopt(M_MMAP_THRESHOLD, ahead);            // keep vectors that grow on the heap, which is not given back in between
  mallopt(M_TRIM_THRESHOLD, 4 * ahead);
  mallopt(M_TOP_PAD, ahead);
  const auto before = reinterpret_cast<std::uintptr_t>(sbrk(0));
  void* volatile grown = std::malloc(page);    // the heap grows now, so that there is something to advise on
  std::free(grown);
  const auto after = reinterpret_cast<std::uintptr_t>(sbrk(0));
  const std::uintptr_t first = (before + page - 1) / page * page;
  if (after <= first) return;
  // What lies before the first large page is passed over: never touched, it costs addresses only.
  [[maybe_unused]] void* volatile passed_over = std::malloc(first - before);
  madvise(reinterpret_cast<void*>(first), after - first, MADV_HUGEPAGE);
}

}  // namespace ferrule
