#include "sheets/legend_rocks.h"

#include "base/text.h"

#include <iterator>
#include <set>
#include <string>

namespace selvage::sheets {

std::vector<LegendEntry> rock_entries(const DrawnSigns& drawn, const Results& results, const Tools& tools) {
    std::vector<LegendEntry> entries;
    for (const std::string& rock : drawn.rocks) {
        const drawing::FillLook look = rock_look(rock, results, tools);
        entries.push_back({rock, [look, &tools](const Box& box) {
                               return Marks{outlined_area(
                                   {{box.left, box.bottom}, {box.right, box.bottom}, {box.right, box.top}, {box.left, box.top}},
                                   look, tools.style.line("strip_edge"))};
                           }});
    }
    return entries;
}

LegendEntry picked_entry(const DrawnSigns& drawn, const Results& results, const Tools& tools) {
    std::string names;
    for (const std::size_t vein : drawn.picked)
        if (vein < results.veins.size()) names += (names.empty() ? "" : ", ") + results.veins[vein].name();
    return {names, [veins = std::vector<std::size_t>(drawn.picked.begin(), drawn.picked.end()), &tools](const Box& box) {
                Marks marks;
                const double width = box.width() / static_cast<double>(veins.size());
                double left = box.left;
                for (const std::size_t vein : veins) {
                    marks.push_back(box_area({left, box.bottom, left + width, box.top}, plain(vein_colour(vein, tools))));
                    left += width;
                }
                return marks;
            }};
}

drawing::Colour vein_colour(std::size_t vein, const Tools& tools) { return tools.style.veins[vein % tools.style.veins.size()]; }
drawing::Colour vein_pale(std::size_t vein, const Tools& tools) {
    return tools.style.veins_pale[vein % tools.style.veins_pale.size()];
}

drawing::FillLook rock_look(const std::string& rock, const Results& results, const Tools& tools) {
    const std::string name = base::folded(rock);
    if (const auto own = tools.style.rocks.find(name); own != tools.style.rocks.end()) return own->second;
    std::set<std::string> others;
    for (const tables::GeologyInterval& interval : results.records.geology)
        if (const std::string folded = base::folded(interval.rock); tools.style.rocks.count(folded) == 0) others.insert(folded);
    const auto place = static_cast<std::size_t>(std::distance(others.begin(), others.lower_bound(name)));
    if (tools.style.other_rocks.empty()) return plain(tools.style.colour("white"));
    return tools.style.other_rocks[place % tools.style.other_rocks.size()];
}

}  // namespace selvage::sheets
