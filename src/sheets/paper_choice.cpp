#include "sheets/paper_choice.h"

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

double share_beside(const drawing::LabelFigures& labels) {
    return labels.wanted == 0 ? 1.0 : static_cast<double>(labels.beside) / static_cast<double>(labels.wanted);
}

// Four labels of five beside their points, leaders of 15 mm in the mean and under 60: more than a few that are not make a crowd.
bool is_crowded(const drawing::LabelFigures& labels) {
    constexpr std::size_t a_few = 4;
    constexpr double share = 0.8, mean_mm = 15.0, longest_mm = 60.0;
    const std::size_t away = labels.wanted - labels.beside;
    return away > a_few &&
           (share_beside(labels) < share || labels.leader_mean_mm > mean_mm || labels.leader_longest_mm > longest_mm);
}

// Whether larger paper bears what the smaller did not, or clearly more of it.
bool is_worth_its_paper(const SheetTrial& larger, const SheetTrial& smaller) {
    constexpr double clearly = 0.05;
    if (smaller.listed > listed_most) return true;
    return larger.listed <= listed_most &&
           (!is_crowded(larger.sheet.labels) || share_beside(larger.sheet.labels) > share_beside(smaller.sheet.labels) + clearly);
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
            results.veins, results.pierces, results.step_outs, results.site,         results.solids};
}

drawing::Sheet on_paper_that_bears(const Results& results, const drawing::Style& style,
                                   const std::function<SheetTrial(const Results&)>& draw) {
    SheetTrial best = draw(results);
    settings::Project project = results.project;
    while (best.listed > listed_most || is_crowded(best.sheet.labels)) {
        const std::optional<std::string> larger = larger_paper(project, style);
        if (!larger) break;
        project.sheets.paper = *larger;
        SheetTrial trial = draw(with_project(results, project));
        if (is_worth_its_paper(trial, best)) best = std::move(trial);
    }
    return std::move(best.sheet);
}

}  // namespace selvage::sheets
