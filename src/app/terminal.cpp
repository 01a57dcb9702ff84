#include "app/terminal.h"

#include <unistd.h>

#include <chrono>
#include <cstdio>
#include <cstdlib>

namespace selvage::app {

namespace {

constexpr std::chrono::milliseconds before_first{1000}, between{250};

bool is_terminal() { return isatty(fileno(stderr)) != 0; }

bool is_set(const char* name) {
    const char* value = std::getenv(name);
    return value != nullptr && *value != '\0';
}

// ANSI codes (ECMA-48, select graphic rendition): red, yellow, default.
const char* colour_of(base::Severity severity) {
    return severity == base::Severity::error ? "\x1b[31m" : severity == base::Severity::warning ? "\x1b[33m" : "";
}

}  // namespace

std::string message_line(const base::Finding& finding) {
    std::string line = base::line_of(finding);
    const std::string colour = colour_of(finding.check->severity);
    if (!is_terminal() || is_set("NO_COLOR") || colour.empty()) return line;
    const std::string word = base::word_of(finding.check->severity);
    const std::size_t at = line.find(word + ":");
    if (at == std::string::npos) return line;
    return line.substr(0, at) + colour + word + "\x1b[0m" + line.substr(at + word.size());
}

Progress::Progress(bool wanted) {
    if (wanted && is_terminal()) teller_ = std::thread([this] { tell(); });
}

Progress::~Progress() { finish(); }

void Progress::at(const std::string& stage) {
    const std::lock_guard<std::mutex> lock(guard_);
    stage_ = stage;
}

void Progress::finish() {
    if (!teller_.joinable()) return;
    {
        const std::lock_guard<std::mutex> lock(guard_);
        done_ = true;
    }
    ended_.notify_all();
    teller_.join();
}

void Progress::tell() {
    using Clock = std::chrono::steady_clock;
    const Clock::time_point begun = Clock::now();
    std::unique_lock<std::mutex> lock(guard_);
    if (ended_.wait_for(lock, before_first, [this] { return done_; })) return;
    do {
        const auto seconds = std::chrono::duration_cast<std::chrono::seconds>(Clock::now() - begun).count();
        std::fprintf(stderr, "\r\x1b[Kselvage: %s, %lld s", stage_.c_str(), static_cast<long long>(seconds));
        std::fflush(stderr);
    } while (!ended_.wait_for(lock, between, [this] { return done_; }));
    std::fprintf(stderr, "\r\x1b[K");
    std::fflush(stderr);
}

}  // namespace selvage::app
