#include "sheets/front_page.h"

#include "sheets/cautions.h"
#include "sheets/front_words.h"
#include "sheets/legend_signs.h"
#include "sheets/marks.h"
#include "sheets/openings_words.h"
#include "sheets/vein_thumbnail.h"

#include <algorithm>
#include <set>
#include <string>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr double air = 5.0, foot_air = 2.0, column_gap = 7.0, block_gap = 4.0, widest_gap = 13.0;  // mm
constexpr double head_height = 14.0, figures_height = 22.0;                                        // mm
constexpr double left_share = 0.565;                                                               // of the panel's width
constexpr double heading_height = 7.0;                                                             // of a block of paragraphs
constexpr double came_share = 0.34, next_share = 0.4, data_share = 0.4;  // of the left column's height at the most
constexpr double tallest_picture = 112.0, least_picture = 42.0;          // mm
constexpr std::size_t most_pictures = 4;

struct Areas {
    Box head, figures, left, right;
};
Areas areas_of(const PageBoxes& boxes) {
    const Box panel{boxes.panel.left + air, boxes.foot.top + foot_air, boxes.panel.right - air, boxes.panel.top - 2.0};
    const double middle = panel.left + left_share * (panel.width() - column_gap);
    const double below = panel.top - head_height - figures_height;
    return {{panel.left, panel.top - head_height, panel.right, panel.top},
            {panel.left, below, panel.right, panel.top - head_height},
            {panel.left, panel.bottom, middle, below - block_gap},
            {middle + column_gap, panel.bottom, panel.right, below - block_gap}};
}

Marks head_marks(const Box& box, const News& news, const base::MapFrame& frame, const Tools& tools) {
    return {words({box.left, box.top - 6.5},
                  drawing::shortened(tools.fonts, tools.style.text("title"), headline(news, frame), box.width()),
                  tools.style.text("title")),
            words({box.left, box.top - 11.5},
                  drawing::shortened(tools.fonts, tools.style.text("subtitle"), days_words(news), box.width()),
                  tools.style.text("subtitle"))};
}

// The largest of these looks in which a figure fits.
const drawing::TextLook& figure_look(const std::string& figure, double width, const Tools& tools) {
    for (const char* role : {"card_key", "card_angle"})
        if (drawing::text_width_mm(tools.fonts, tools.style.text(role), figure) <= width) return tools.style.text(role);
    return tools.style.text("card_name");
}

Marks figure_marks(const Box& box, const std::vector<KeyFigure>& figures, const Tools& tools) {
    Marks marks{line_of({{box.left, box.top}, {box.right, box.top}}, tools.style.line("rule")),
                line_of({{box.left, box.bottom}, {box.right, box.bottom}}, tools.style.line("rule"))};
    const double width = box.width() / static_cast<double>(figures.size());
    for (std::size_t i = 0; i < figures.size(); ++i) {
        const double left = box.left + static_cast<double>(i) * width;
        if (i > 0)
            marks.push_back(line_of({{left - 2.0, box.top - 3.0}, {left - 2.0, box.bottom + 2.5}}, tools.style.line("grid")));
        marks.push_back(words({left, box.top - 11.5}, figures[i].figure, figure_look(figures[i].figure, width - 4.0, tools)));
        const std::vector<std::string> lines =
            drawing::wrapped(tools.fonts, tools.style.text("body"), figures[i].caption, width - 4.0);
        for (std::size_t k = 0; k < std::min<std::size_t>(lines.size(), 2); ++k)
            marks.push_back(words({left, box.top - 16.0 - 3.4 * static_cast<double>(k)}, lines[k], tools.style.text("body")));
    }
    return marks;
}

// Blocks written one under another.
class Blocks {
public:
    Blocks(const Box& box, double gap, const Tools& tools) : box_(box), top_(box.top), gap_(gap), tools_(tools) {}

    double free() const { return top_ - box_.bottom; }
    // As many of its rows as the height holds; what is left out is counted, and `where` says where it stands.
    void table(TypesetTable table, double height, const std::string& where) {
        table = sentences_broken(std::move(table), box_.width(), tools_);
        if (rows_within(table, height, tools_) < table.rows.size()) {
            const std::string note = table.end_words;
            table.end_words = "more";
            std::size_t kept = rows_within(table, height, tools_);
            while (kept > 0 && table.rows[kept].joined) --kept;
            const auto left_out = std::count_if(table.rows.begin() + static_cast<std::ptrdiff_t>(kept), table.rows.end(),
                                                [](const TableRow& row) { return !row.joined; });
            table.end_words = std::to_string(left_out) + " more: " + where + (note.empty() ? "" : ". " + note);
            table.rows.resize(kept);
        }
        SetTable set = set_table(table, {box_.left, top_ - height, box_.right, top_}, tools_);
        append(marks, std::move(set.marks));
        top_ = set.bottom - gap_;
    }
    // As many as the height holds; what is left out is counted.
    void paragraphs(const std::string& heading, std::vector<Paragraph> all, double height) {
        const std::size_t count = all.size();
        for (std::size_t kept = count;
             kept > 1 && paragraphs_height(all, box_.width(), tools_) > height - heading_height + paragraph_gap;) {
            all.resize(--kept);
            all.push_back({"", std::to_string(count - kept) + " more: see the forecasts, next holes and checks"});
        }
        marks.push_back(words({box_.left, top_ - 5.0}, heading, tools_.style.text("sentence")));
        SetText set = set_paragraphs(all, {box_.left, top_ - height, box_.right, top_ - heading_height}, tools_);
        append(marks, std::move(set.marks));
        top_ = set.bottom - gap_;
    }

    Marks marks;

private:
    Box box_;
    double top_, gap_;
    const Tools& tools_;
};

constexpr const char* data_heading = "Data and assays";

double data_height_of(const std::vector<Paragraph>& data, const Box& box, const Tools& tools) {
    return heading_height + paragraphs_height(data, box.width(), tools);
}

// `data`: empty where it stands elsewhere. gap: mm between blocks.
Blocks left_blocks(const Box& box, double gap, const News& news, const Results& results, const GradeClasses& classes,
                   const SectionSet& sections, const std::vector<Paragraph>& data, const RunFacts& run, const Tools& tools) {
    Blocks blocks(box, gap, tools);
    blocks.table(came_table(news, results, classes, sections), came_share * box.height(), "see the intercept table");
    blocks.table(next_table(results), next_share * box.height(), "see the forecasts");
    const double data_height = data.empty() ? 0.0 : std::min(data_share * blocks.free(), data_height_of(data, box, tools)) + gap;
    std::vector<Paragraph> open = decisions(results, classes, run);
    if (open.empty()) open.push_back({"None", "nothing in the tables asks for one."});
    blocks.paragraphs("Decisions wanted", std::move(open), blocks.free() - data_height);
    if (!data.empty()) blocks.paragraphs(data_heading, data, blocks.free());
    return blocks;
}

std::vector<VeinThumbnail> thumbnails(const Box& box, const News& news, const Results& results, const GradeClasses& classes,
                                      const Tools& tools) {
    const std::vector<std::string> holes = holes_told(news, results);
    std::vector<std::size_t> veins = veins_told(news, results);
    const auto most = static_cast<std::size_t>(box.height() / least_picture);
    veins.resize(std::min({veins.size(), most_pictures, most}));
    std::vector<VeinThumbnail> all;
    double top = box.top;
    const double height = std::min(tallest_picture, box.height() / static_cast<double>(std::max<std::size_t>(veins.size(), 1)));
    for (const std::size_t vein : veins) {
        all.push_back(vein_thumbnail(vein, {box.left, top - height + block_gap / 2.0, box.right, top},
                                     {holes.begin(), holes.end()}, results, classes, tools));
        top = all.back().bottom - block_gap;
    }
    return all;
}

DrawnSigns signs_of_all(const std::vector<VeinThumbnail>& pictures) {
    DrawnSigns drawn;
    for (const VeinThumbnail& picture : pictures) drawn.signs.merge(signs_of(picture).signs);
    return drawn;
}

PageContent page_of(const std::vector<VeinThumbnail>& pictures, const Results& results, const GradeClasses& classes,
                    const Tools& tools) {
    PageContent page;
    page.kind = front_page_kind;
    page.whole_panel = true;
    page.title.title = "Week on a page";
    page.title.subtitle = "what came, what comes, what to decide";
    page.title.identification = "WK";
    page.title.document_type = "summary";
    page.title.scale = pictures.empty() ? "" : "as stated";
    page.cautions = {working_document_caution(), interpretation_caution(results.events)};
    if (!results.pierces.empty() || !results.step_outs.empty()) page.cautions.push_back(holes_ahead_caution(results));
    if (std::string openings = openings_words(results); !openings.empty()) page.cautions.push_back(std::move(openings));
    page.cautions.push_back(thickness_caution());
    if (!pictures.empty()) {
        std::vector<std::size_t> counts(hit_signs, 0);
        for (const VeinThumbnail& picture : pictures)
            for (std::size_t i = 0; i < hit_signs; ++i) counts[i] += picture.counts[i];
        page.classes_heading = classes.quantity.empty() ? "Hits and misses" : classes.quantity;
        page.classes_note = "shown here";
        page.classes = class_rows(classes, counts);
        page.legend = legend_groups(signs_of_all(pictures), results, tools);
        page.legend_in_one_column = true;
        page.legend.push_back({"", {{"where a vein's model ends", [&pictures](const Box& box) {
                                         Marks marks;
                                         double y = (box.bottom + box.top + static_cast<double>(pictures.size()) - 1.0) / 2.0;
                                         for (const VeinThumbnail& picture : pictures) {
                                             marks.push_back(line_of({{box.left, y}, {box.right, y}}, picture.edge));
                                             y -= 1.0;
                                         }
                                         return marks;
                                     }}}});
    }
    return page;
}

}  // namespace

FrontPage front_page(const Results& results, const RunFacts& run, const GradeClasses& classes, const SectionSet& sections,
                     const Tools& tools) {
    const News news = news_of(results, run);
    const Paper paper = paper_of(results.project, tools.style);
    const PageBoxes boxes = page_boxes(paper.width_mm, paper.height_mm, tools.style.page.layout);
    const Areas areas = areas_of(boxes);
    std::vector<VeinThumbnail> pictures = thumbnails(areas.right, news, results, classes, tools);
    FrontPage front;
    PageContent page = page_of(pictures, results, classes, tools);
    page.key_plan_heading = "In this pack";
    page.key_plan_scale = "sheets";
    page.key_plan = [&front](const Box& box) {
        front.contents = box;
        return Marks{};
    };
    front.sheet = begin_page(page, results, run, tools);
    put(front.sheet, Layer::page, 0, head_marks(areas.head, news, results.records.frame, tools));
    put(front.sheet, Layer::page, 0, figure_marks(areas.figures, key_figures(news, results, run), tools));
    std::vector<Paragraph> data = data_words(news, run);
    const Box under{areas.right.left, areas.right.bottom, areas.right.right,
                    pictures.empty() ? areas.right.top : pictures.back().bottom - 2.0 * block_gap};
    if (data_height_of(data, under, tools) <= under.height()) {
        Blocks blocks(under, block_gap, tools);
        blocks.paragraphs(data_heading, std::move(data), blocks.free());
        put(front.sheet, Layer::results, 0, std::move(blocks.marks));
        data.clear();
    }
    const auto left = [&](double gap) {
        return left_blocks(areas.left, gap, news, results, classes, sections, data, run, tools);
    };
    const double spare = left(block_gap).free();
    put(front.sheet, Layer::results, 0, left(block_gap + std::clamp(spare / 4.0, 0.0, widest_gap - block_gap)).marks);
    for (VeinThumbnail& picture : pictures) put_thumbnail(front.sheet, std::move(picture), results.project.length_unit);
    return front;
}

}  // namespace selvage::sheets
