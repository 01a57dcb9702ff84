#include "output/swap_folders.h"
#include "output/write.h"

#include "base/file.h"
#include "base/json.h"

#include <gtest/gtest.h>

#include <unistd.h>
#include <filesystem>
#include <map>

namespace selvage::output {
namespace {

namespace fs = std::filesystem;

// A folder of its own for each test, removed at its end.
class Folder : public ::testing::Test {
protected:
    Folder()
        : top(fs::temp_directory_path() / ("selvage_folder_test_" + std::to_string(::getpid()) + "_" +
                                           ::testing::UnitTest::GetInstance()->current_test_info()->name())),
          pack(top / "pack") {
        fs::remove_all(top);
        fs::create_directories(top);
    }
    ~Folder() override { fs::remove_all(top); }

    // A pack of these files with the record that lists them.
    static std::vector<PackFile> pack_of(std::vector<PackFile> files) {
        base::JsonArray names;
        for (const PackFile& file : files) names.emplace_back(file.name);
        files.push_back({"run.json", base::json_text(base::JsonObject{{"format", 1}, {"files", names}})});
        return files;
    }
    static std::map<std::string, std::string> contents(const fs::path& folder) {
        std::map<std::string, std::string> out;
        for (const auto& entry : fs::recursive_directory_iterator(folder))
            if (entry.is_regular_file())
                out[entry.path().lexically_relative(folder).generic_string()] = base::read_file(entry.path());
        return out;
    }
    std::vector<std::string> siblings() const {
        std::vector<std::string> out;
        for (const auto& entry : fs::directory_iterator(top)) out.push_back(entry.path().filename().string());
        return out;
    }

    fs::path top, pack;
};

using Replace = Folder;

TEST_F(Replace, WritesANewPackAndTheFoldersAboveIt) {
    replace_folder(top / "a" / "b" / "pack", {{"pack.pdf", "one"}, {"sheets/01-plan-all.pdf", "two"}});
    EXPECT_EQ(contents(top / "a" / "b" / "pack"),
              (std::map<std::string, std::string>{{"pack.pdf", "one"}, {"sheets/01-plan-all.pdf", "two"}}));
}

TEST_F(Replace, LeavesNothingOfTheOldPackAndNothingBeside) {
    replace_folder(pack, pack_of({{"pack.pdf", "old"}, {"sheets/09-plan.pdf", "old"}}));
    replace_folder(pack, pack_of({{"pack.pdf", "new"}, {"tables/paths.csv", "new"}}));
    const auto now = contents(pack);
    EXPECT_EQ(now.size(), 3U);
    EXPECT_EQ(now.at("pack.pdf"), "new");
    EXPECT_EQ(now.count("sheets/09-plan.pdf"), 0U);
    EXPECT_EQ(siblings(), std::vector<std::string>{"pack"});
}

TEST_F(Replace, TakesAFolderWrittenWithASlashOrAtADot) {
    replace_folder(pack.string() + "/", pack_of({{"pack.pdf", "old"}}));
    EXPECT_EQ(contents(pack).at("pack.pdf"), "old");
    replace_folder(top / "." / "other" / ".." / "pack" / "", pack_of({{"pack.pdf", "new"}}));
    EXPECT_EQ(contents(pack).at("pack.pdf"), "new");
    EXPECT_EQ(siblings(), std::vector<std::string>{"pack"});
}

TEST_F(Replace, KeepsALinkAndReplacesWhatItNames) {
    replace_folder(pack, pack_of({{"pack.pdf", "old"}}));
    fs::create_directory_symlink(pack, top / "link");
    replace_folder(top / "link", pack_of({{"pack.pdf", "new"}}));
    EXPECT_TRUE(fs::is_symlink(top / "link"));
    EXPECT_EQ(contents(pack).at("pack.pdf"), "new");
}

TEST_F(Replace, AFailureHalfWayLeavesTheOldPackWhole) {
    replace_folder(pack, pack_of({{"pack.pdf", "old"}, {"tables/paths.csv", "old"}}));
    const auto before = contents(pack);
    // The second file wants a folder of the name that the first one has.
    EXPECT_THROW(replace_folder(pack, {{"pack.pdf", "new"}, {"pack.pdf/page.pdf", "new"}}), base::MachineError);
    EXPECT_EQ(contents(pack), before);
    EXPECT_EQ(siblings(), std::vector<std::string>{"pack"});
}

TEST_F(Replace, AFolderThatCannotBeMadeIsAFailureOfTheMachine) {
    base::write_file(top / "file", "words");
    EXPECT_THROW(replace_folder(top / "file" / "pack", {{"pack.pdf", "new"}}), base::MachineError);
    EXPECT_EQ(base::read_file(top / "file"), "words");
}

TEST_F(Replace, WhatAKilledRunLeftBesideIsRemoved) {
    replace_folder(pack, pack_of({{"pack.pdf", "old"}}));
    fs::create_directories(pack.string() + ".selvage-new/sheets");
    base::write_file(pack.string() + ".selvage-new/half.pdf", "half");
    replace_folder(pack, pack_of({{"pack.pdf", "new"}}));
    EXPECT_EQ(contents(pack).size(), 2U);
    EXPECT_EQ(siblings(), std::vector<std::string>{"pack"});
}

TEST_F(Replace, RefusesAFileThatCameInAfterTheFolderWasLookedAt) {
    replace_folder(pack, pack_of({{"pack.pdf", "old"}}));
    base::write_file(pack / "notes.txt", "mine");
    EXPECT_THROW(replace_folder(pack, pack_of({{"pack.pdf", "new"}})), base::MachineError);
    EXPECT_EQ(contents(pack).at("notes.txt"), "mine");
    EXPECT_EQ(contents(pack).at("pack.pdf"), "old");
    EXPECT_EQ(siblings(), std::vector<std::string>{"pack"});
}

TEST_F(Replace, WithoutExchangeTheOldPackStepsAside) {
    fs::create_directories(top / "fresh");
    base::write_file(top / "fresh" / "a", "new");
    fs::create_directories(pack);
    base::write_file(pack / "a", "old");
    swap_folders(top / "fresh", pack, SwapWay::two_renames);
    EXPECT_EQ(base::read_file(pack / "a"), "new");
    EXPECT_EQ(siblings(), std::vector<std::string>{"pack"});
}

TEST_F(Replace, WithoutExchangeAFailedRenameBringsTheOldPackBack) {
    fs::create_directories(pack);
    base::write_file(pack / "a", "old");
    EXPECT_THROW(swap_folders(top / "not there", pack, SwapWay::two_renames), base::MachineError);
    EXPECT_THROW(swap_folders(top / "not there", pack, SwapWay::exchange), base::MachineError);
    EXPECT_EQ(base::read_file(pack / "a"), "old");
    EXPECT_EQ(siblings(), std::vector<std::string>{"pack"});
}

TEST_F(Replace, APackThatAKilledRunLeftAsideIsPutBackFirst) {
    fs::create_directories(aside_of(pack));
    base::write_file(aside_of(pack) / "a", "old");
    restore_aside(pack);
    EXPECT_EQ(base::read_file(pack / "a"), "old");
    EXPECT_EQ(siblings(), std::vector<std::string>{"pack"});
}

using Foreign = Folder;

TEST_F(Foreign, NoneInAMissingOrEmptyFolderOrAnEarlierPack) {
    EXPECT_TRUE(foreign_files(pack).empty());
    fs::create_directories(pack / "empty" / "too");
    EXPECT_TRUE(foreign_files(pack).empty());
    replace_folder(pack, pack_of({{"pack.pdf", "old"}, {"sheets/01-plan.pdf", "old"}}));
    EXPECT_TRUE(foreign_files(pack).empty());
    EXPECT_TRUE(foreign_files(pack.string() + "/").empty());
    fs::remove(pack / "pack.pdf");
    EXPECT_TRUE(foreign_files(pack).empty());
}

TEST_F(Foreign, AreNamedByTheirPath) {
    replace_folder(pack, pack_of({{"pack.pdf", "old"}, {"sheets/01-plan.pdf", "old"}}));
    base::write_file(pack / "sheets" / "mine.pdf", "x");
    base::write_file(pack / "a note", "x");
    fs::create_symlink(pack / "pack.pdf", pack / "link.pdf");
    EXPECT_EQ(foreign_files(pack), (std::vector<std::string>{"a note", "link.pdf", "sheets/mine.pdf"}));
}

TEST_F(Foreign, IsEverythingWhereNoRecordListsTheFiles) {
    fs::create_directories(pack);
    base::write_file(pack / "pack.pdf", "x");
    EXPECT_EQ(foreign_files(pack), std::vector<std::string>{"pack.pdf"});
    for (const char* record :
         {"", "{}", "not json", R"({"format": 1})", R"({"files": ["pack.pdf"]})", R"({"format": 1, "files": 3})"}) {
        base::write_file(pack / "run.json", record);
        EXPECT_EQ(foreign_files(pack), (std::vector<std::string>{"pack.pdf", "run.json"})) << record;
    }
}

TEST_F(Foreign, IsAFileOfTheFoldersName) {
    base::write_file(pack, "x");
    EXPECT_EQ(foreign_files(pack), std::vector<std::string>{"pack"});
    EXPECT_THROW(replace_folder(pack, {{"a", "b"}}), base::MachineError);
    EXPECT_EQ(base::read_file(pack), "x");
}

}  // namespace
}  // namespace selvage::output
