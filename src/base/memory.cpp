#include "base/memory.h"

#include <malloc.h>

namespace selvage::base {

void keep_freed_memory() {
#ifdef __GLIBC__
    constexpr int largest_block = 64 << 20, most_kept = 256 << 20;  // bytes: the largest table's text; a large run's whole need
    mallopt(M_MMAP_THRESHOLD, largest_block);
    mallopt(M_TRIM_THRESHOLD, most_kept);
#endif
}

}  // namespace selvage::base
