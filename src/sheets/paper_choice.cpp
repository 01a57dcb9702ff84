#include "sheets/paper_choice.h"

#include "base/parallel.h"
#include "sheets/column.h"

#include <algorithm>
#include <array>
#include <optional>
#include <string>
#include <utility>

namespace selvage::sheets {

namespace {

// The next larger paper of the same kind, as far as the project allows one.
std::optional<std::string> larger_paper(const settings::Project& project, const drawing::Style& style) {
    constexpr std::array<std::pair<const char*, const char*>, 5> next{
        {{"A4", "A3"}, {"A3", "A2"}, {"A2", "A1"}, {"A1", "A0"}, {"279x432", "559x864"}}};
    const auto height_mm = [&](const std::string& paper) {
        settings::Project on_it;
        on_it.sheets.paper = paper;
        return paper_of(on_it, style).height_mm;
    };
    const std::string name = paper_of(project, style).name;
    for (const auto& [paper, larger] : next)
        if (name == paper && height_mm(larger) <= height_mm(project.sheets.largest_paper)) return larger;
    return std::nullopt;
}

// What a drawing came to on one paper: the figures of all its parts, and the longest side list.
struct Trial {
    std::vector<SheetTrial> parts;
    drawing::LabelFigures labels;
    std::size_t listed = 0;
};

Trial trial_of(std::vector<SheetTrial> parts) {
    Trial trial{std::move(parts), {}, 0};
    double leaders_mm = 0.0;
    for (const SheetTrial& part : trial.parts) {
        const drawing::LabelFigures& labels = part.sheet.labels;
        trial.labels.wanted += labels.wanted;
        trial.labels.beside += labels.beside;
        trial.labels.on_leaders += labels.on_leaders;
        leaders_mm += labels.leader_mean_mm * static_cast<double>(labels.on_leaders);
        trial.labels.leader_longest_mm = std::max(trial.labels.leader_longest_mm, labels.leader_longest_mm);
        trial.listed = std::max(trial.listed, part.listed);
    }
    if (trial.labels.on_leaders > 0) trial.labels.leader_mean_mm = leaders_mm / static_cast<double>(trial.labels.on_leaders);
    return trial;
}

double share_beside(const drawing::LabelFigures& labels) {
    return labels.wanted == 0 ? 1.0 : static_cast<double>(labels.beside) / static_cast<double>(labels.wanted);
}

// Four labels of five beside their points, leaders of 15 mm in the mean and under 60: more than a few that are not make a crowd.
bool is_crowded(const Trial& trial) {
    constexpr std::size_t a_few = 4;
    constexpr double share = 0.8, mean_mm = 15.0, longest_mm = 60.0;
    const drawing::LabelFigures& labels = trial.labels;
    const std::size_t away = labels.wanted - labels.beside;
    return trial.listed > listed_most || (away > a_few && (share_beside(labels) < share || labels.leader_mean_mm > mean_mm ||
                                                           labels.leader_longest_mm > longest_mm));
}

// Whether more paper bears what less of it did not, or clearly more of it.
bool is_worth_its_paper(const Trial& more, const Trial& less) {
    constexpr double clearly = 0.05;
    if (less.listed > listed_most) return true;
    return more.listed <= listed_most && (!is_crowded(more) || share_beside(more.labels) > share_beside(less.labels) + clearly);
}

// On one sheet, or what the scales allowed make of it: the best of the papers, and the project with it.
struct OnPaper {
    settings::Project project;
    Trial trial;
};

OnPaper on_best_paper(const Results& results, const drawing::Style& style, const DrawingOnPaper& drawing) {
    OnPaper best{results.project, trial_of(drawing.drawn(results))};
    settings::Project project = results.project;
    while (is_crowded(best.trial)) {
        const std::optional<std::string> larger = larger_paper(project, style);
        if (!larger) break;
        project.sheets.paper = *larger;
        Trial trial = trial_of(drawing.drawn(with_project(results, project)));
        if (is_worth_its_paper(trial, best.trial)) best = {project, std::move(trial)};
    }
    return best;
}

// The project with that of its papers on which the drawing in parts takes the least of it; none: it would take too many sheets.
std::optional<settings::Project> in_parts(const Results& results, settings::Project project, const drawing::Style& style,
                                          const DrawingOnPaper& drawing) {
    constexpr std::size_t most_parts = 8;
    std::optional<settings::Project> best;
    double least_mm2 = 0.0;
    for (std::optional<std::string> paper = project.sheets.paper; paper; paper = larger_paper(project, style)) {
        project.sheets.paper = *paper;
        const std::size_t parts = drawing.laid_out(with_project(results, project)).tiles.size();
        const Paper size = paper_of(project, style);
        const double area_mm2 = static_cast<double>(parts) * size.width_mm * size.height_mm;
        if (parts > 1 && parts <= most_parts && (!best || area_mm2 < least_mm2)) {
            best = project;
            least_mm2 = area_mm2;
        }
    }
    return best;
}

// The next larger scales of the ladder, until labels stand beside their points or too many sheets would be needed.
OnPaper in_parts_that_bear(const Results& results, OnPaper best, const drawing::Style& style, const DrawingOnPaper& drawing) {
    const Scales scales = scales_of(results.project, style);
    const std::vector<double>& ladder = scale_ladder(scales.feet);
    const double whole = drawing.laid_out(with_project(results, best.project)).denominator / scales.enlarged;
    for (auto step = std::lower_bound(ladder.begin(), ladder.end(), whole * (1.0 - 1e-9));
         step != ladder.begin() && is_crowded(best.trial);) {
        settings::Project project = results.project;
        project.sheets.smallest_scale = *--step;
        const std::optional<settings::Project> parted = in_parts(results, project, style, drawing);
        if (!parted) break;
        Trial trial = trial_of(drawing.drawn(with_project(results, *parted)));
        if (is_worth_its_paper(trial, best.trial)) best = {*parted, std::move(trial)};
    }
    return best;
}

}  // namespace

std::size_t listed_on(const PageContent& page, std::size_t listed, const Results& results, const Tools& tools) {
    const Paper paper = paper_of(results.project, tools.style);
    const PageBoxes boxes = page_boxes(paper.width_mm, paper.height_mm, tools.style.page.layout);
    return column_holds(page, boxes, tools) ? listed : std::max(listed, listed_most + 1);
}

drawing::LabelRules label_rules(const drawing::Box& window, const settings::Project& project, const Tools& tools) {
    constexpr std::size_t hopeless = 5;  // times more than a sheet bears: setting them again in another order saves a few
    drawing::LabelRules rules;
    rules.window = window;
    rules.number_look = tools.style.text("list_number");
    if (larger_paper(project, tools.style)) rules.give_up_over = hopeless * listed_most;
    return rules;
}

settings::Project on_desk_paper(settings::Project project, const drawing::Style& style) {
    const std::string name = paper_of(project, style).name;
    return name == "A4" || name == "A3" ? project : on_table_paper(std::move(project), style);
}

settings::Project on_table_paper(settings::Project project, const drawing::Style& style) {
    const std::string name = paper_of(project, style).name;
    project.sheets.paper = name == "279x432" || name == "559x864" ? "279x432" : "A3";
    return project;
}

Results with_project(const Results& results, const settings::Project& project) {
    return {project,       results.records, results.paths,     results.orientations, results.events, results.intercepts,
            results.veins, results.pierces, results.step_outs, results.site,         results.solids, results.ahead};
}

std::vector<SheetTrial> each_part(const Tiling& tiling, const std::function<SheetTrial(std::size_t)>& draw) {
    std::vector<SheetTrial> parts(tiling.tiles.size());
    base::parallel_for(parts.size(), [&](std::size_t part) { parts[part] = draw(part); });
    return parts;
}

std::vector<drawing::Sheet> on_paper_that_bears(const Results& results, const drawing::Style& style,
                                                const DrawingOnPaper& drawing) {
    constexpr std::size_t a_crowd = 24;  // fewer are a knot, which no scale unties
    constexpr double two_of_three = 2.0 / 3.0;
    OnPaper best = on_best_paper(results, style, drawing);
    const std::size_t away = best.trial.labels.wanted - best.trial.labels.beside;
    const bool is_whole = best.trial.parts.size() == 1;
    if (is_whole && away > a_crowd && share_beside(best.trial.labels) < two_of_three)
        best = in_parts_that_bear(results, std::move(best), style, drawing);
    std::vector<drawing::Sheet> sheets;
    for (SheetTrial& part : best.trial.parts) sheets.push_back(std::move(part.sheet));
    if (sheets.size() > 1)
        sheets.front().destinations.push_back(
            {destination_of_sheet(sheets.front().kind, drawing.name), sheets.front().destinations.front().at});
    return sheets;
}

}  // namespace selvage::sheets
