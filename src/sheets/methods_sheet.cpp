#include "sheets/methods_sheet.h"

#include "sheets/cautions.h"
#include "sheets/methods_words.h"
#include "sheets/running_text.h"

#include <algorithm>
#include <string>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr double air = 6.0, room_a_column = 92.0;  // mm

}  // namespace

std::vector<drawing::Sheet> methods_sheet(const Results& results, const RunFacts& run, const Tools& tools) {
    const Paper paper = paper_of(results.project, tools.style);
    const PageBoxes boxes = page_boxes(paper.width_mm, paper.height_mm, tools.style.page.layout);
    const Box box{boxes.panel.left + air, boxes.foot.top + air, boxes.panel.right - air, boxes.panel.top - air};
    std::vector<TextSection> sections = data_methods(results, run);
    for (TextSection& section : model_methods(results)) sections.push_back(std::move(section));
    sections.push_back(assumptions(results));
    sections.push_back(cautions_in_full(results, run, tools.style.content));
    const auto columns = static_cast<std::size_t>(std::max(1.0, box.width() / room_a_column));
    const std::vector<Marks> pages = set_in_columns(sections, box, columns, tools);
    std::vector<drawing::Sheet> sheets;
    for (std::size_t number = 0; number < pages.size(); ++number) {
        const std::string part =
            pages.size() < 2 ? "" : ", part " + std::to_string(number + 1) + " of " + std::to_string(pages.size());
        PageContent page;
        page.kind = methods_sheet_kind;
        page.name = number == 0 ? "" : std::to_string(number + 1);
        page.whole_panel = true;
        page.title.title = "Methods, cautions";
        page.title.subtitle = "how this run was made" + part;
        page.title.identification = "MC-" + std::to_string(number + 1);
        page.title.document_type = "methods";
        page.bookmark = "Methods and cautions" + part;
        page.cautions = {working_document_caution()};
        drawing::Sheet sheet = begin_page(page, results, run, tools);
        put(sheet, Layer::page, 0, pages[number]);
        sheets.push_back(std::move(sheet));
    }
    return sheets;
}

}  // namespace selvage::sheets
