#include "sheets/contents.h"

#include "sheets/marks.h"

#include <algorithm>
#include <string>
#include <utility>

namespace selvage::sheets {

namespace {

std::string kind_words(const std::string& kind) {
    if (kind == "long-section") return "long sections";
    if (kind == "cross-section") return "cross sections";
    if (kind == "plan") return "plan";
    if (kind == "level-plan") return "level plans";
    if (kind == "overview") return "overview in space";
    if (kind == "week") return "week on a page";
    if (kind == "intercept-table") return "intercept table";
    if (kind == "forecasts") return "forecasts";
    if (kind == "step-outs") return "next holes";
    if (kind == "drill-site-card") return "cards of the next holes";
    if (kind == "strip-log") return "logs";
    if (kind == "stereonet") return "stereonets";
    if (kind == "checks") return "checks and fit";
    if (kind == "methods") return "methods and cautions";
    return kind;
}

// A card and the section along its hole stand together.
const std::string& group_kind(const drawing::Sheet& sheet) {
    static const std::string card = "drill-site-card";
    return sheet.kind == "hole-section" ? card : sheet.kind;
}

}  // namespace

std::vector<SheetGroup> sheet_groups(const std::vector<drawing::Sheet>& pack) {
    std::vector<SheetGroup> groups;
    for (std::size_t i = 0; i < pack.size(); ++i) {
        if (groups.empty() || group_kind(pack[i]) != group_kind(pack[groups.back().last]))
            groups.push_back({i, i, kind_words(group_kind(pack[i]))});
        else
            groups.back().last = i;
    }
    return groups;
}

void write_contents(std::vector<drawing::Sheet>& pack, const drawing::Box& box, const Tools& tools) {
    constexpr double inside = 2.0, number_room = 14.0, widest_step = 4.2;  // mm
    std::vector<SheetGroup> groups = sheet_groups(pack);
    groups.erase(groups.begin());
    if (groups.empty() || !(box.height() > 0.0)) return;
    const double step = std::min(widest_step, (box.height() - 2.0) / static_cast<double>(groups.size()));
    double base = box.top - 1.0 - 0.75 * step;
    for (const SheetGroup& group : groups) {
        const std::string link = pack[group.first].destinations.empty() ? "" : pack[group.first].destinations.front().name;
        std::string numbers = std::to_string(group.first + 1);
        if (group.last > group.first) numbers.append("–").append(std::to_string(group.last + 1));
        drawing::Text number{{box.left + inside + number_room - 3.0, base},
                             std::move(numbers),
                             tools.style.text("body_strong"),
                             drawing::Anchor::right,
                             false,
                             0.0,
                             link};
        drawing::Text name{{box.left + inside + number_room, base},
                           group.words,
                           tools.style.text("body"),
                           drawing::Anchor::left,
                           false,
                           0.0,
                           link};
        put(pack.front(), Layer::page, 0, {std::move(number), std::move(name)});
        base -= step;
    }
}

}  // namespace selvage::sheets
