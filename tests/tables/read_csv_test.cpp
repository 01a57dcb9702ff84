#include "base/random.h"
#include "support/project_tables.h"
#include "tables/read.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace selvage::tables {
namespace {

using test::found;
using test::lines_of;
using testing::ElementsAre;
using testing::IsEmpty;

base::Checked<base::Table> read_text(std::string_view text, const std::string& encoding = "") {
    return read_csv("geology", "geology.csv", std::string(text), encoding);
}

std::vector<std::string> row(const base::Table& table, std::size_t number) {
    std::vector<std::string> cells;
    for (std::size_t column = 0; column < table.columns.size(); ++column) cells.emplace_back(table.cell(number, column));
    return cells;
}

void expect_rows(std::string_view text, const std::vector<std::vector<std::string>>& rows) {
    const base::Checked<base::Table> read = read_text(text);
    EXPECT_THAT(read.findings, IsEmpty()) << lines_of(read.findings);
    ASSERT_EQ(read.value.row_count(), rows.size()) << text;
    for (std::size_t i = 0; i < rows.size(); ++i) EXPECT_EQ(row(read.value, i), rows[i]) << text;
}

TEST(ReadCsv, FindsTheDelimiter) {
    for (const char* text : {"hole,from\nK-1,5\n", "hole;from\nK-1;5\n", "hole\tfrom\nK-1\t5\n", "hole|from\nK-1|5\n"})
        expect_rows(text, {{"K-1", "5"}});
}

TEST(ReadCsv, TakesTheDelimiterOfTheRowsNotOfOneTitle) {
    expect_rows("hole;east, m;north, m\nK-1;1,5;2,5\nK-2;3;4,25\n", {{"K-1", "1,5", "2,5"}, {"K-2", "3", "4,25"}});
    expect_rows("hole,note\nK-1,a;b;c\nK-2,d;e;f\n", {{"K-1", "a;b;c"}, {"K-2", "d;e;f"}});
}

// RFC 4180, section 2, rules 5 to 7.
TEST(ReadCsv, ReadsQuotedCells) {
    expect_rows("a,b\n\"x,y\",\"say \"\"no\"\"\"\n\"two\nlines\",\n", {{"x,y", "say \"no\""}, {"two\nlines", ""}});
    expect_rows("a,b\n5\" core,\"\"\n", {{"5\" core", ""}});
    expect_rows("a,b\n\"x\"y,z\n", {{"xy", "z"}});
}

TEST(ReadCsv, ReadsEveryKindOfLineEnd) {
    for (const char* text : {"a,b\n1,2\n3,4\n", "a,b\r\n1,2\r\n3,4\r\n", "a,b\r1,2\r3,4\r", "a,b\n1,2\n3,4", "a,b\r\n1,2\r\n3,4"})
        expect_rows(text, {{"1", "2"}, {"3", "4"}});
}

TEST(ReadCsv, SkipsByteOrderMarkAndBlankLinesAndCountsThem) {
    const base::Table table = read_text("\xef\xbb\xbf\n\na,b\n\n1,2\n , \n;;\n3,4\n").value;
    EXPECT_EQ(table.header_row, 3U);
    EXPECT_THAT(table.columns, ElementsAre("a", "b"));
    ASSERT_EQ(table.row_count(), 3U);
    EXPECT_EQ(table.line(0), 5U);
    EXPECT_EQ(table.line(2), 8U);
}

TEST(ReadCsv, GivesARecordOfSeveralLinesItsFirst) {
    for (const char* text :
         {"a,b\n1,\"x\ny\n\nz\"\n3,4\n", "a,b\r\n1,\"x\r\ny\r\n\r\nz\"\r\n3,4\r\n", "a,b\r1,\"x\ry\r\rz\"\r3,4\r"}) {
        const base::Table table = read_text(text).value;
        ASSERT_EQ(table.row_count(), 2U);
        EXPECT_EQ(table.line(0), 2U);
        EXPECT_EQ(table.line(1), 6U);
    }
}

TEST(ReadCsv, TurnsWindows1252IntoUtf8) {
    const base::Checked<base::Table> read = read_text("a,b\ngr\xe8s \x96 Calder\xf3n,1\n");
    EXPECT_EQ(row(read.value, 0)[0], "grès – Calderón");
    EXPECT_EQ(found(read.findings, "read-as-windows-1252").size(), 1U);
    EXPECT_THAT(read_text("a,b\ngr\xe8s,1\n", "windows-1252").findings, IsEmpty());
    EXPECT_EQ(row(read_text("a,b\ngrès,1\n").value, 0)[0], "grès");
}

TEST(ReadCsv, RefusesWhatIsNoText) {
    using namespace std::string_literals;
    for (const std::string& bytes :
         {"\xff\xfe"s + "a\0,\0"s, "\xfe\xff"s + "\0a\0,"s, "a,b\n1,\0\n"s, "PK\x03\x04zzzz"s, "SQLite format 3\0"s}) {
        const base::Checked<base::Table> read = read_text(bytes);
        EXPECT_EQ(found(read.findings, "not-a-text-file").size(), 1U);
        EXPECT_EQ(read.value.row_count(), 0U);
    }
}

TEST(ReadCsv, SaysThatATableIsEmptyOrHasNoRows) {
    for (const char* text : {"", "\n\n", "\xef\xbb\xbf", " , ,\n"})
        EXPECT_EQ(found(read_text(text).findings, "table-empty").size(), 1U);
    EXPECT_EQ(found(read_text("a,b\n").findings, "table-without-rows").size(), 1U);
}

TEST(ReadCsv, LeavesOutRowsThatAreTooLongAndFillsShortOnes) {
    const base::Checked<base::Table> read = read_text("a,b,c\n1,2,3\n4,5,6,7\n8,9\n10,11,12,,\n13\n");
    ASSERT_EQ(read.value.row_count(), 4U);
    EXPECT_THAT(row(read.value, 1), ElementsAre("8", "9", ""));
    EXPECT_THAT(row(read.value, 2), ElementsAre("10", "11", "12"));
    ASSERT_EQ(found(read.findings, "row-too-long").size(), 1U);
    EXPECT_EQ(found(read.findings, "row-too-long")[0].origin.row, 3U);
    ASSERT_EQ(found(read.findings, "row-too-short").size(), 1U) << "one for all";
    EXPECT_EQ(found(read.findings, "row-too-short")[0].origin.row, 4U);
}

TEST(ReadCsv, LosesOneRowToAQuoteWithoutEnd) {
    const base::Checked<base::Table> read = read_text("a,b\n1,\"x\n2,y\n3,z\n");
    ASSERT_EQ(read.value.row_count(), 2U);
    EXPECT_THAT(row(read.value, 0), ElementsAre("2", "y"));
    EXPECT_EQ(read.value.line(1), 4U);
    ASSERT_EQ(found(read.findings, "unclosed-quote").size(), 1U);
    EXPECT_EQ(found(read.findings, "unclosed-quote")[0].origin.row, 2U);
}

// A stray quote must not swallow everything down to the next quoted cell.
TEST(ReadCsv, LosesOneRowToAStrayQuoteFarAboveAQuotedCell) {
    std::string text = "a,b\n1,\"x\n";
    for (int i = 0; i < 1000; ++i) text += "2,y\n";
    const base::Checked<base::Table> read = read_text(text + "3,\"z\"\n");
    EXPECT_EQ(read.value.row_count(), 1001U);
    EXPECT_THAT(row(read.value, 1000), ElementsAre("3", "z"));
    EXPECT_EQ(found(read.findings, "unclosed-quote").size(), 1U);
}

TEST(ReadCsv, OutlivesAnyBytes) {
    base::RandomStream random("read csv fuzz", {1});
    const std::string letters = "aK1.-,;\t|\"\"\n\r \xc3\xa9\xff\x80<>0";
    for (int round = 0; round < 3000; ++round) {
        std::string text;
        for (std::size_t n = random.below(80); n > 0; --n) text += letters[random.below(letters.size())];
        const base::Table table = read_text(text).value;
        for (std::size_t i = 0; i < table.row_count(); ++i) EXPECT_EQ(row(table, i).size(), table.columns.size());
    }
}

}  // namespace
}  // namespace selvage::tables
