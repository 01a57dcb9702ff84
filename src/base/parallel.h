#pragma once

#include <cstddef>
#include <functional>

namespace selvage::base {

// How many threads `parallel_for` may use from now on, 1 or more; 0 takes what the machine has. Called once, by the command line.
void set_jobs(std::size_t jobs);

// Calls work(i) for every i in [0, count), in any order and on any thread. Each call may write only to what belongs to item i;
// the caller joins the items in their order afterwards, so that the result does not depend on the number of threads.
void parallel_for(std::size_t count, const std::function<void(std::size_t)>& work);

}  // namespace selvage::base
