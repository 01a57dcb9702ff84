#include "app/reference.h"

#include "app/catalogue.h"
#include "base/text.h"
#include "drawing/style_roles.h"
#include "intercepts/intercept.h"
#include "output/write.h"
#include "settings/read.h"
#include "tables/columns.h"

#include <gtest/gtest.h>

namespace selvage::app {
namespace {

// The line that begins with the name, then the lines under it.
void expect_entry(const std::string& text, const std::string& name, const std::string& meaning) {
    bool told = false;
    for (std::size_t at = text.find("\n  " + name + "  ("); at != std::string::npos && !told;
         at = text.find("\n  " + name + "  (", at + 1)) {
        const std::size_t under = text.find('\n', at + 1);
        told = text.compare(under + 1, 6 + meaning.size(), "      " + meaning) == 0;
    }
    EXPECT_TRUE(told) << name << ": " << meaning;
}

TEST(Reference, NamesEveryKeyOfTheProjectFile) {
    const std::string text = reference_text();
    for (const settings::Key& key : settings::project_keys()) {
        expect_entry(text, key.name, key.meaning);
        const std::string heading = key.section.empty() ? "at the top" : "[" + key.section + "]";
        EXPECT_NE(text.find("\n" + heading + "\n"), std::string::npos) << heading;
    }
}

TEST(Reference, NamesEveryRoleOfAStyleWithItsDefault) {
    const std::string text = reference_text();
    for (const drawing::StyleRole& role : drawing::style_roles()) expect_entry(text, role.name, role.meaning);
    for (const drawing::StyleKey& key : drawing::style_keys())
        expect_entry(text, *key.section == 0 ? key.name : "[" + std::string(key.section) + "] " + key.name, key.meaning);
    for (const std::string& kind : drawing::sheet_kinds()) EXPECT_NE(text.find(kind), std::string::npos) << kind;
    EXPECT_EQ(text.find("that comes with the program cannot be read"), std::string::npos);
}

TEST(Reference, NamesEveryColumnThatIsReadOrWritten) {
    const std::string text = reference_text();
    for (const tables::TableDescription& table : tables::table_descriptions())
        for (const tables::Column& column : table.columns) expect_entry(text, column.name, column.meaning);
    for (const output::TableDescription& table : output::table_descriptions()) {
        EXPECT_NE(text.find("\n" + table.name + ".csv\n"), std::string::npos);
        for (const output::Column& column : table.columns) expect_entry(text, column.name, column.meaning);
    }
}

TEST(Reference, NamesEveryCheckAndFlag) {
    const std::string text = reference_text();
    for (const base::Check* check : catalogue()) expect_entry(text, check->id, check->meaning);
    for (const intercepts::Flag& flag : intercepts::flags())
        EXPECT_NE(text.find(std::string("\n  ") + flag.word + "\n      " + flag.meaning), std::string::npos) << flag.word;
}

TEST(Reference, IsPlainText) {
    const std::string text = reference_text();
    EXPECT_TRUE(base::is_utf8(text));
    EXPECT_EQ(text.find('\t'), std::string::npos);
    EXPECT_EQ(text.back(), '\n');
}

}  // namespace
}  // namespace selvage::app
