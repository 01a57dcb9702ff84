#pragma once

#include "base/finding.h"

#include <condition_variable>
#include <mutex>
#include <string>
#include <thread>

// What a person at a terminal sees beyond what a pipe is given.
namespace selvage::app {

// A finding's line for stderr; at a terminal its severity is coloured, unless NO_COLOR says otherwise (no-color.org).
std::string message_line(const base::Finding& finding);

// One line on stderr that says which stage a run is at and for how long it has been running, once that is over a second; gone
// when the run is. Nothing where stderr is no terminal.
class Progress {
public:
    explicit Progress(bool wanted);
    ~Progress();
    Progress(const Progress&) = delete;
    Progress& operator=(const Progress&) = delete;

    void at(const std::string& stage);  // "modelling veins"
    void finish();                      // takes the line away

private:
    void tell();

    std::mutex guard_;
    std::condition_variable ended_;
    std::string stage_;
    bool done_ = false;
    std::thread teller_;
};

}  // namespace selvage::app
