#include "sheets/table_page.h"

#include "sheets/made_up_pack.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <string>

namespace selvage::sheets {
namespace {

TypesetTable table_of(std::size_t rows) {
    TypesetTable table;
    table.columns = {{"Hole", "", Cells::words, true}, {"From", "m", Cells::figures, false}};
    for (std::size_t i = 0; i < rows; ++i)
        table.rows.push_back(
            {{{"K-" + std::to_string(i)}, {i % 2 == 0 ? "7.25" : "1043.5"}}, "row " + std::to_string(i), false, false});
    table.end_words = "that is all";
    return table;
}

std::vector<const drawing::Text*> texts_of_sheet(const drawing::Sheet& sheet) {
    std::vector<const drawing::Text*> texts;
    for (const drawing::Item& item : sheet.items)
        if (const auto* text = std::get_if<drawing::Text>(&item.mark)) texts.push_back(text);
    return texts;
}

TEST(TablePage, SetsEveryRowOnceAndRepeatsItsHead) {
    const MadeUpPack& pack = made_up_pack();
    const std::vector<drawing::Sheet> sheets = table_pages({table_of(300)}, {}, pack.results(), pack.run, pack.tools());
    ASSERT_GT(sheets.size(), 2u);
    std::size_t rows = 0, heads = 0, ends = 0;
    for (const drawing::Sheet& sheet : sheets)
        for (const drawing::Text* text : texts_of_sheet(sheet)) {
            rows += text->text.rfind("K-", 0) == 0 ? 1 : 0;
            heads += text->text == "From" ? 1 : 0;
            ends += text->text == "that is all" ? 1 : 0;
        }
    EXPECT_EQ(rows, 300u);
    EXPECT_EQ(heads, sheets.size());
    EXPECT_EQ(ends, 1u);
}

TEST(TablePage, BreaksASentenceThatIsTooLongOverRowsAndLosesNoWordOfIt) {
    const MadeUpPack& pack = made_up_pack();
    TypesetTable table = table_of(2);
    std::string sentence;
    for (int i = 0; i < 40; ++i) sentence += (i == 0 ? "word" : " word") + std::to_string(i);
    TableRow row;
    row.joined = true;
    row.cells = {{sentence, "", 2}, {}};
    table.rows.insert(table.rows.begin() + 1, row);
    const TypesetTable broken = sentences_broken(table, 60.0, pack.tools());
    EXPECT_GT(broken.rows.size(), table.rows.size());
    std::string together;
    for (std::size_t i = 1; i + 1 < broken.rows.size(); ++i) {
        EXPECT_TRUE(broken.rows[i].joined);
        together += (i == 1 ? "" : " ") + broken.rows[i].cells[0].text;
    }
    EXPECT_EQ(together, sentence);
    for (const drawing::Mark& mark : set_table(broken, {0.0, 0.0, 60.0, 200.0}, pack.tools()).marks)
        if (const auto* text = std::get_if<drawing::Text>(&mark)) {
            EXPECT_EQ(text->text.find("…"), std::string::npos) << text->text;
        }
}

TEST(TablePage, ColumnsThatGoGoInWholeGroupsAndAreToldUnderTheirRow) {
    const MadeUpPack& pack = made_up_pack();
    TypesetTable table;
    table.columns = {{"Target", "", Cells::words, false, 0.0, false, "", true}};
    for (int i = 0; i < 40; ++i) table.columns.push_back({"F" + std::to_string(i), "m", Cells::figures, false});
    for (const char* axis : {"Collar E", "Collar N", "Collar El"})
        table.columns.push_back({axis, "m", Cells::figures, false, 0.0, true, "Collar"});
    const std::string name = "a name with a number at its end 4410";
    TableRow row, under;
    row.cells = {{name}};
    for (int i = 0; i < 40; ++i) row.cells.push_back({"1.25"});
    for (const char* figure : {"431 057", "5 214 382", "958"}) row.cells.push_back({figure});
    under.joined = true;
    under.cells.resize(row.cells.size());
    under.cells[1] = {"no pad", "", row.cells.size() - 1};
    table.rows = {row, under};
    std::string all;
    for (const drawing::Sheet& sheet : table_pages({table}, {}, pack.results(), pack.run, pack.tools()))
        for (const drawing::Text* text : texts_of_sheet(sheet)) all += text->text + "\n";
    EXPECT_NE(all.find(name), std::string::npos);
    for (const char* head : {"Collar E\n", "Collar N\n", "Collar El\n"}) EXPECT_EQ(all.find(head), std::string::npos) << head;
    EXPECT_NE(all.find("Collar E 431 057, N 5 214 382, El 958 m; no pad"), std::string::npos);
}

TEST(TablePage, SetsFiguresOnTheirPoint) {
    const MadeUpPack& pack = made_up_pack();
    const std::vector<drawing::Sheet> sheets = table_pages({table_of(4)}, {}, pack.results(), pack.run, pack.tools());
    std::vector<double> points;
    for (const drawing::Text* text : texts_of_sheet(sheets.front())) {
        const std::size_t point = text->text.find('.');
        if (text->text != "7.25" && text->text != "1043.5") continue;
        points.push_back(text->at.x + drawing::text_width_mm(pack.fonts.metrics, text->look, text->text.substr(0, point)));
    }
    ASSERT_EQ(points.size(), 4u);
    for (const double x : points) EXPECT_NEAR(x, points.front(), 1e-9);
}

TEST(TablePage, GivesEachRowADestinationAtItsPlace) {
    const MadeUpPack& pack = made_up_pack();
    const std::vector<drawing::Sheet> sheets = table_pages({table_of(300)}, {}, pack.results(), pack.run, pack.tools());
    for (const drawing::Sheet& sheet : sheets)
        for (const drawing::Destination& destination : sheet.destinations) {
            if (destination.name.rfind("row ", 0) != 0) continue;
            const std::string hole = "K-" + destination.name.substr(4);
            const auto texts = texts_of_sheet(sheet);
            const auto text = std::find_if(texts.begin(), texts.end(), [&](const drawing::Text* t) { return t->text == hole; });
            ASSERT_NE(text, texts.end()) << hole;
            EXPECT_LT(std::abs((*text)->at.y - destination.at.y), 5.0);
        }
}

std::size_t rows_on(const drawing::Sheet& sheet) {
    const auto texts = texts_of_sheet(sheet);
    return static_cast<std::size_t>(
        std::count_if(texts.begin(), texts.end(), [](const drawing::Text* text) { return text->text.rfind("K-", 0) == 0; }));
}

TEST(TablePage, SharesRowsOutSoThatNoPageIsNearlyEmpty) {
    const MadeUpPack& pack = made_up_pack();
    for (std::size_t rows = 30; rows < 140; rows += 3) {
        const std::vector<drawing::Sheet> sheets = table_pages({table_of(rows)}, {}, pack.results(), pack.run, pack.tools());
        std::size_t least = rows, most = 0, all = 0;
        for (const drawing::Sheet& sheet : sheets) {
            least = std::min(least, rows_on(sheet));
            most = std::max(most, rows_on(sheet));
            all += rows_on(sheet);
        }
        EXPECT_EQ(all, rows);
        EXPECT_LE(most - least, 4u) << rows << " rows";
    }
}

TEST(TablePage, NoPageStartsWithARowThatBelongsToTheOneAbove) {
    const MadeUpPack& pack = made_up_pack();
    for (std::size_t rows = 60; rows < 130; rows += 2) {
        TypesetTable table = table_of(rows);
        for (std::size_t i = 1; i < rows; i += 2) table.rows[i].joined = true;
        const std::vector<drawing::Sheet> sheets = table_pages({table}, {}, pack.results(), pack.run, pack.tools());
        for (const drawing::Sheet& sheet : sheets) EXPECT_EQ(rows_on(sheet) % 2, 0u) << rows << " rows";
    }
}

// A page full of rows without a word of what they are under would leave warnings and errors alike.
TEST(TablePage, StartsWithTheWordOfTheGroupThatItGoesOnWith) {
    const MadeUpPack& pack = made_up_pack();
    TypesetTable table = table_of(300);
    for (std::size_t i = 0; i < table.rows.size(); ++i) table.rows[i].cells[0].text = i == 0 ? "warning" : "";
    const std::vector<drawing::Sheet> sheets = table_pages({table}, {}, pack.results(), pack.run, pack.tools());
    ASSERT_GT(sheets.size(), 2u);
    for (const drawing::Sheet& sheet : sheets) {
        std::size_t said = 0;
        for (const drawing::Text* text : texts_of_sheet(sheet)) said += text->text == "warning" ? 1 : 0;
        EXPECT_EQ(said, 1u);
    }
}

TEST(TablePage, EachPageHasItsOwnIdentification) {
    const MadeUpPack& pack = made_up_pack();
    PageContent page;
    page.title.identification = "IT";
    const std::vector<drawing::Sheet> sheets = table_pages({table_of(120)}, page, pack.results(), pack.run, pack.tools());
    ASSERT_GT(sheets.size(), 1u);
    for (std::size_t i = 0; i < sheets.size(); ++i) {
        const auto texts = texts_of_sheet(sheets[i]);
        const std::string own = "IT-" + std::to_string(i + 1);
        const auto ends_so = [&own](const drawing::Text* text) {
            const std::string& words = text->text;
            return words.size() >= own.size() && words.compare(words.size() - own.size(), own.size(), own) == 0;
        };
        EXPECT_EQ(std::count_if(texts.begin(), texts.end(), ends_so), 1);
    }
}

TEST(TablePage, TwoTablesShareAPageWhereThereIsRoom) {
    const MadeUpPack& pack = made_up_pack();
    EXPECT_EQ(table_pages({table_of(5), table_of(5)}, {}, pack.results(), pack.run, pack.tools()).size(), 1u);
}

TEST(TablePage, LeavesOutWhatMayGoWhereThePageIsTooNarrowTheLastColumnFirst) {
    const MadeUpPack& pack = made_up_pack();
    TypesetTable table;
    table.columns.push_back({"Hole", "", Cells::words, true});
    for (int i = 0; i < 40; ++i) table.columns.push_back({"may go " + std::to_string(i), "m", Cells::figures, false, 0.0, true});
    table.columns.push_back({"kept", "m", Cells::figures, false});
    TableRow row, spanning;
    for (std::size_t i = 0; i < table.columns.size(); ++i) row.cells.push_back({i == 0 ? "K-1" : std::to_string(1000 + i)});
    spanning.cells.assign(table.columns.size(), {});
    spanning.cells[0] = {"K-2"};
    spanning.cells[1] = {"one remark over all of those", "", 40};
    spanning.cells.back() = {"77"};
    table.rows = {row, spanning};
    const std::vector<drawing::Sheet> sheets = table_pages({table}, {}, pack.results(), pack.run, pack.tools());
    ASSERT_EQ(sheets.size(), 1u);
    const double panel_right = page_boxes(420.0, 297.0, drawing::PageLayout::drawing).panel.right;
    std::set<std::string> said;
    for (const SetWords& words : words_of(sheets.front(), pack.fonts.metrics)) {
        said.insert(words.text->text);
        if (words.box.left >= panel_right) continue;
        EXPECT_LT(words.box.right, panel_right) << words.text->text;
    }
    for (const char* kept : {"kept", "1041", "77", "may go 0", "one remark over all of those"})
        EXPECT_EQ(said.count(kept), 1u) << kept;
    EXPECT_EQ(said.count("may go 39"), 0u);
}

TEST(TablePage, ExplainsSignsOnlyOnThePagesWhereTheyAreDrawn) {
    const MadeUpPack& pack = made_up_pack();
    TypesetTable drawn;
    drawn.columns = {{"", "", Cells::drawing, false, 50.0}};
    drawn.rows_high = 12.0;
    TableCell cell;
    cell.draw = [&pack](const drawing::Box& box) {
        drawing::Shape stroke;
        stroke.rings = {{{box.left, box.bottom}, {box.right, box.top}}};
        stroke.line = pack.style.line("rule");
        return std::vector<drawing::Mark>{stroke};
    };
    drawn.rows = {{{cell}, "", false, false}};
    drawn.legend = {{"", {{"the sign of it", [](const drawing::Box&) { return std::vector<drawing::Mark>{}; }}}}};
    const std::vector<drawing::Sheet> sheets = table_pages({table_of(70), drawn}, {}, pack.results(), pack.run, pack.tools());
    ASSERT_GT(sheets.size(), 1u);
    for (const drawing::Sheet& sheet : sheets) {
        std::size_t signs = 0;
        for (const drawing::Text* text : texts_of_sheet(sheet)) signs += text->text.find("the sign") != std::string::npos ? 1 : 0;
        EXPECT_EQ(signs, &sheet == &sheets.back() ? 1u : 0u);
    }
}

// A box of its own: rows that do not fit are left to the caller, words stay within its width.
TEST(TablePage, SetsATableIntoABox) {
    const MadeUpPack& pack = made_up_pack();
    TypesetTable table = table_of(30);
    table.heading = std::string(300, 'x');
    const SetTable set = set_table(table, {10.0, 20.0, 80.0, 90.0}, pack.tools());
    EXPECT_EQ(set.rows, rows_within(table, 70.0, pack.tools()));
    EXPECT_GT(set.rows, 3u);
    EXPECT_LT(set.rows, 30u);
    EXPECT_GE(set.bottom, 20.0 - 1e-9);
    for (const drawing::Mark& mark : set.marks)
        if (const auto* text = std::get_if<drawing::Text>(&mark); text != nullptr && text->anchor == drawing::Anchor::left) {
            EXPECT_GE(text->at.x, 10.0 - 1e-9);
            EXPECT_LE(text->at.x + drawing::text_width_mm(pack.fonts.metrics, text->look, text->text), 80.0 + 0.1);
        }
}

}  // namespace
}  // namespace selvage::sheets
