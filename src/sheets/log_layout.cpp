#include "sheets/log_layout.h"

#include <algorithm>
#include <cmath>

namespace selvage::sheets {

namespace {

constexpr std::size_t most_strips = 4;
constexpr double widest = 1.6;      // times its usual width
constexpr double break_room = 6.0;  // mm between windows one under another: the break mark and the next one's head

// Columns of windows, filled from above; a new page where there is none left.
class Windows {
public:
    Windows(const Box& area, double first_left, double metres_per_mm)
        : area_(area), left_(first_left), top_(area.top - log_head), metres_per_mm_(metres_per_mm) {
        if (left_ + log_window_width > area_.right + 1e-9) next_page();
    }
    void add(LogLayout& layout, DepthRange range) {
        while (range.to - range.from > 1e-9) {
            const double whole = area_.height() - log_head, needed = (range.to - range.from) / metres_per_mm_;
            if (needed > top_ - area_.bottom && top_ < area_.top - log_head - 1e-9) next_column();
            const double height = std::min(needed, std::min(whole, top_ - area_.bottom));
            const bool first = top_ > area_.top - log_head - 1e-9;
            LogStretch stretch{range.from, range.from + height * metres_per_mm_, true, first, page_, {}, metres_per_mm_};
            stretch.box = {left_, top_ - height, left_ + log_window_width, top_};
            layout.stretches.push_back(stretch);
            layout.pages = std::max(layout.pages, page_ + 1);
            top_ -= height + break_room;
            range.from = stretch.to;
            if (range.to - range.from > 1e-9) ++layout.cuts;
        }
    }

private:
    void next_column() {
        left_ += log_window_width + log_gap;
        top_ = area_.top - log_head;
        if (left_ + log_window_width > area_.right + 1e-9) next_page();
    }
    void next_page() {
        ++page_;
        left_ = area_.left;
        top_ = area_.top - log_head;
    }

    Box area_;
    double left_, top_, metres_per_mm_;
    std::size_t page_ = 0;
};

// Uses the paper's whole width where little stands on a page.
void widen(LogLayout& layout, const Box& area) {
    for (std::size_t page = 0; page < layout.pages; ++page) {
        double right = area.left;
        for (const LogStretch& stretch : layout.stretches)
            if (stretch.page == page) right = std::max(right, stretch.box.right);
        const double factor = std::min(widest, area.width() / std::max(1.0, right - area.left));
        for (LogStretch& stretch : layout.stretches) {
            if (stretch.page != page) continue;
            stretch.box.left = area.left + factor * (stretch.box.left - area.left);
            stretch.box.right = area.left + factor * (stretch.box.right - area.left);
        }
    }
}

}  // namespace

LogLayout log_layout(double from, double to, const std::vector<DepthRange>& picked, const Box& area, const Scales& scales) {
    LogLayout layout;
    layout.window_scale = (scales.feet ? 48.0 : 50.0) * scales.enlarged;
    const double room = area.height() - log_head;
    const auto strips_at = [&](double scale) { return std::max(1.0, std::ceil((to - from) / (room * scale / 1000.0) - 1e-9)); };
    const double usual = scales.feet ? 480.0 : 500.0, largest = scales.feet ? 240.0 : 200.0;
    const double few_strips = picked.empty() ? 5.0 : 2.0;
    for (const double scale : scale_ladder(scales.feet)) {
        layout.strip_scale = scale * scales.enlarged;
        if (scale >= largest && scale < usual && strips_at(layout.strip_scale) <= few_strips) break;
        if (scale >= usual && strips_at(layout.strip_scale) <= static_cast<double>(most_strips)) break;
    }
    const double metres_per_mm = layout.strip_scale / 1000.0;
    const auto strips = static_cast<std::size_t>(strips_at(layout.strip_scale));
    double left = area.left;
    for (std::size_t i = 0; i < strips; ++i, left += log_strip_width + log_gap) {
        LogStretch strip;
        strip.from = from + static_cast<double>(i) * room * metres_per_mm;
        strip.to = std::min(to, strip.from + room * metres_per_mm);
        strip.metres_per_mm = metres_per_mm;
        strip.box = {left, area.top - log_head - (strip.to - strip.from) / metres_per_mm, left + log_strip_width,
                     area.top - log_head};
        layout.stretches.push_back(strip);
    }
    Windows windows(area, left + log_gap, layout.window_scale / 1000.0);
    for (const DepthRange& range : picked) windows.add(layout, range);
    widen(layout, area);
    return layout;
}

std::vector<DepthRange> windows_round(std::vector<DepthRange> picks, double beside, double from, double to) {
    std::sort(picks.begin(), picks.end(), [](const DepthRange& a, const DepthRange& b) { return a.from < b.from; });
    std::vector<DepthRange> windows;
    for (const DepthRange& pick : picks) {
        const DepthRange window{std::max(from, pick.from - beside), std::min(to, pick.to + beside)};
        if (!windows.empty() && window.from <= windows.back().to)
            windows.back().to = std::max(windows.back().to, window.to);
        else if (window.to > window.from)
            windows.push_back(window);
    }
    return windows;
}

std::vector<double> spread(std::vector<double> wanted, double gap, double low, double high) {
    const auto room = static_cast<std::size_t>(std::max(0.0, std::floor((high - low) / gap + 1e-9)) + 1.0);
    if (wanted.size() > room) wanted.resize(room);
    // Downwards first, then back up from the end: each stands within a gap's sum of where it is wanted.
    double least = low;
    for (double& place : wanted) {
        place = std::max(place, least);
        least = place + gap;
    }
    double most = high;
    for (std::size_t i = wanted.size(); i-- > 0;) {
        wanted[i] = std::min(wanted[i], most);
        most = wanted[i] - gap;
    }
    return wanted;
}

}  // namespace selvage::sheets
