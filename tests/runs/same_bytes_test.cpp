#include "support/example_site.h"
#include "support/program.h"
#include "support/temporary_folder.h"

#include <gtest/gtest.h>

#include <map>
#include <string>

namespace selvage {
namespace {

// The pack of the example, made with these words in this environment.
std::map<std::string, std::string> pack(const TemporaryFolder& folder, const std::string& name, const std::string& words,
                                        const std::string& settings) {
    const auto out = folder.path() / name;
    const ProgramRun run = run_program(
        SELVAGE_PROGRAM, "run " + (folder.path() / "project" / "project.toml").string() + " --out " + out.string() + " " + words,
        settings);
    EXPECT_EQ(run.status, 0) << run.output;
    return run.status == 0 ? bytes_of_folder(out) : std::map<std::string, std::string>();
}

TEST(SameBytes, WhateverTheThreadsTheLocaleAndTheTimeZone) {
    const TemporaryFolder folder("same-bytes");
    made_up::cold_hythe().write(folder.path() / "project");
    // A locale with a decimal comma, made for this test (package locales).
    const std::string locales = (folder.path() / "locales").string();
    const ProgramRun made = run_program("mkdir", "-p " + locales + " && localedef -i de_DE -f UTF-8 " + locales + "/de_DE.UTF-8");
    ASSERT_LE(made.status, 1) << made.output;  // 1: warnings
    const ProgramRun works = run_program("locale", "decimal_point", "LOCPATH=" + locales + " LC_ALL=de_DE.UTF-8");
    ASSERT_EQ(works.output, ",\n");

    const auto plain = pack(folder, "a", "--jobs 1", "LC_ALL=C TZ=UTC");
    ASSERT_FALSE(plain.empty());
    const auto other = pack(folder, "b", "--jobs 2", "LOCPATH=" + locales + " LC_ALL=de_DE.UTF-8 TZ=Pacific/Auckland");
    ASSERT_EQ(plain.size(), other.size());
    for (const auto& [name, bytes] : plain) {
        ASSERT_EQ(other.count(name), 1U) << name;
        EXPECT_TRUE(other.at(name) == bytes) << name << " differs";
    }
}

}  // namespace
}  // namespace selvage
