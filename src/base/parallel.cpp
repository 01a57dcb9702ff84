#include "base/parallel.h"

#include <tbb/global_control.h>
#include <tbb/info.h>
#include <tbb/parallel_for.h>

#include <algorithm>
#include <memory>

namespace selvage::base {

namespace {

std::unique_ptr<tbb::global_control> thread_limit;  // the one setting of the machine, not of the results

}  // namespace

void set_jobs(std::size_t jobs) {
    const auto all = static_cast<std::size_t>(std::max(1, tbb::info::default_concurrency()));
    thread_limit.reset();
    thread_limit = std::make_unique<tbb::global_control>(tbb::global_control::max_allowed_parallelism, jobs == 0 ? all : jobs);
}

void parallel_for(std::size_t count, const std::function<void(std::size_t)>& work) {
    tbb::parallel_for(std::size_t{0}, count, [&](std::size_t item) { work(item); });
}

}  // namespace selvage::base
