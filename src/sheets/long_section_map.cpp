#include "sheets/long_section_map.h"

#include "base/text.h"
#include "drawing/clipping.h"
#include "sheets/symbols.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr double fine_step_mm = 0.8;  // of the grid that lines are cut from, on paper

bool carries_quantity(const HitOnPlane& drawn, bool accumulation) {
    if (drawn.hit->state != tables::PickState::vein || drawn.hit->certainty > 2) return false;
    if (!accumulation) return drawn.hit->true_thickness.has_value();
    const std::vector<std::string>& flags = drawn.hit->flags;  // a grade of little core is not in the model
    return drawn.accumulation.has_value() && std::find(flags.begin(), flags.end(), "low-recovery") == flags.end();
}

// 1, 2 and 5 times powers of ten between the least and the most, at most four, from the top.
std::vector<double> round_levels(double least, double most) {
    std::vector<double> levels;
    for (int power = -3; power <= 3; ++power)
        for (const double digit : {1.0, 2.0, 5.0})
            if (const double level = digit * std::pow(10.0, power); level > least && level < most) levels.push_back(level);
    if (levels.size() > 4) levels.erase(levels.begin(), levels.end() - 4);
    return levels;
}

std::string in_lower_case(std::string words) {
    if (!words.empty() && words.front() >= 'A' && words.front() <= 'Z') words.front() = static_cast<char>(words.front() + 32);
    return words;
}

// The hits that carry what is mapped, and between which values they lie.
struct Carriers {
    std::vector<std::vector<Eigen::Vector2d>> places;  // by block
    std::size_t count = 0;
    double least = std::numeric_limits<double>::infinity(), most = 0.0;  // in the project's unit
};

Carriers carriers_of(const LongSectionContent& content, const GradeClasses& classes, double per_unit) {
    Carriers carriers;
    carriers.places.resize(content.blocks.size());
    for (const HitOnPlane& drawn : content.hits) {
        if (!carries_quantity(drawn, classes.any)) continue;
        carriers.places[drawn.block].push_back(drawn.place);
        ++carriers.count;
        const double value = classes.any ? *drawn.accumulation : *drawn.hit->true_thickness / per_unit;
        carriers.least = std::min(carriers.least, value);
        carriers.most = std::max(carriers.most, value);
    }
    return carriers;
}

// The class of the fill at a place; nothing where there is none.
std::optional<std::size_t> class_of_fill(const std::vector<Tint>& tints, const Point& at) {
    std::optional<std::size_t> number;
    for (const Tint& tint : tints)
        if (drawing::inside(at, tint.rings)) number = std::max(number.value_or(0), tint.level + 1);
    return number;
}

std::vector<ContraryHit> contrary_hits(const LongSectionContent& content, const std::vector<Tint>& tints, double spacing,
                                       const PaperFrame& frame, const Tools& tools) {
    constexpr std::size_t classes_off = 2;
    constexpr double least_air_mm = 1.0;  // round the sign
    std::vector<ContraryHit> contrary;
    for (const HitOnPlane& hit : content.hits) {
        if (hit.sign > HitSign::class_4) continue;
        const Point at = frame.paper_from_drawn(hit.place);
        const std::optional<std::size_t> fill = class_of_fill(tints, at);
        const auto own = static_cast<std::size_t>(hit.sign);
        if (!fill || std::max(*fill, own) - std::min(*fill, own) < classes_off) continue;
        double radius = spacing / 4.0 / frame.metres_per_mm;
        for (const HitOnPlane& other : content.hits) {
            const Point there = frame.paper_from_drawn(other.place);
            if (&other != &hit) radius = std::min(radius, std::hypot(there.x - at.x, there.y - at.y) / 2.0);
        }
        contrary.push_back({at, std::max(radius, hit_symbol_width_mm(hit.sign, tools) / 2.0 + least_air_mm)});
    }
    return contrary;
}

std::optional<MappedWords> words_of(const Mapped& mapped, const GradeClasses& classes, std::size_t hits, const FieldReach& reach,
                                    base::LengthUnit unit) {
    MappedWords words;
    words.quantity = classes.any ? in_lower_case(classes.quantity) : std::string("true thickness, ") + base::symbol_of(unit);
    words.hits = hits;
    words.near_hits = reach.near_hits;
    words.reach = reach.of_a_hit;
    words.tints = !mapped.isolines.tints.empty();
    words.contrary = !mapped.contrary.empty();
    for (const Isoline& line : mapped.isolines.lines) {
        (line.solid ? words.solid_lines : words.dashed_lines) = true;
        if (mapped.strong && line.level == *mapped.strong) words.strong_level = mapped.names[line.level];
    }
    if (!words.tints && !words.solid_lines && !words.dashed_lines) return std::nullopt;
    return words;
}

FieldReach reach_of(const LongSectionContent& content, const Results& results) {
    const veins::VeinSummary& summary = results.veins[content.vein].summary();
    return {summary.hole_spacing / 2.0, summary.step_out, summary.step_out};
}

}  // namespace

std::vector<CoarseField> sampled_of(const LongSectionContent& content, const Results& results, const GradeClasses& classes) {
    const Carriers carriers = carriers_of(content, classes, base::metres_per(results.project.length_unit));
    std::vector<CoarseField> sampled(content.blocks.size());
    for (std::size_t block = 0; block < sampled.size(); ++block)
        if (carriers.places[block].size() >= 2)
            sampled[block] = sample_vein(contents_in_block(results.veins[content.vein], block), content.blocks[block].layout,
                                         carriers.places[block], reach_of(content, results),
                                         classes.any ? median_accumulation(classes.analyte) : median_thickness());
    return sampled;
}

Mapped mapped_of(const LongSectionContent& content, const std::vector<CoarseField>& sampled, const Results& results,
                 const GradeClasses& classes, const LongSectionFrame& frame, const Tools& tools) {
    const double per_unit = base::metres_per(results.project.length_unit);
    const Carriers carriers = carriers_of(content, classes, per_unit);
    Mapped mapped;
    const std::vector<double> levels = classes.any ? classes.breaks : round_levels(carriers.least, carriers.most);
    std::vector<double> log_levels;
    for (const double level : levels) {
        log_levels.push_back(std::log(level * per_unit));
        mapped.names.push_back(base::significant(level, 3));
    }
    const FieldReach reach = reach_of(content, results);
    const drawing::Box& window = frame.paper.window;
    for (std::size_t block = 0; block < content.blocks.size(); ++block) {
        const std::vector<Eigen::Vector2d>& places = carriers.places[block];
        if (places.size() < 2) continue;
        VeinField field =
            fine_field(sampled[block], content.blocks[block].extent, places, reach,
                       frame.paper.drawn_from_paper({window.left, window.bottom}),
                       frame.paper.drawn_from_paper({window.right, window.top}), fine_step_mm * frame.paper.metres_per_mm);
        level_lone_parts(field, log_levels, places);
        Isolines cut = cut_isolines(field, log_levels, frame.paper);
        std::move(cut.tints.begin(), cut.tints.end(), std::back_inserter(mapped.isolines.tints));
        std::move(cut.lines.begin(), cut.lines.end(), std::back_inserter(mapped.isolines.lines));
    }
    if (!classes.any) mapped.isolines.tints.clear();
    mapped.contrary = contrary_hits(content, mapped.isolines.tints, 2.0 * reach.near_hits, frame.paper, tools);
    if (classes.any && classes.cut_off < levels.size()) mapped.strong = classes.cut_off;
    mapped.words = words_of(mapped, classes, carriers.count, reach, results.project.length_unit);
    return mapped;
}

Marks tint_marks(const Mapped& mapped, const Tools& tools) {
    Marks marks;
    const std::vector<drawing::Colour>& pale = tools.style.classes_pale;
    for (const Tint& tint : mapped.isolines.tints) {
        drawing::Shape shape;
        shape.rings = tint.rings;
        shape.closed = true;
        shape.fill = plain(pale[std::min(tint.level + 1, pale.size() - 1)]);
        marks.emplace_back(std::move(shape));
    }
    for (const ContraryHit& hit : mapped.contrary)
        marks.push_back(disc(hit.at, hit.radius_mm, plain(tools.style.colour("white"))));
    return marks;
}

Marks isoline_marks(const Mapped& mapped, const Tools& tools) {
    Marks marks;
    for (const Isoline& line : mapped.isolines.lines) {
        const bool strong = mapped.strong && line.level == *mapped.strong;
        marks.push_back(line_of(line.points, tools.style.line(strong ? (line.solid ? "isoline_strong" : "isoline_strong_inferred")
                                                                     : (line.solid ? "isoline" : "isoline_inferred"))));
    }
    return marks;
}

}  // namespace selvage::sheets
