#include "base/file.h"
#include "base/finding.h"
#include "base/json.h"
#include "base/parallel.h"
#include "base/random.h"
#include "support/temporary_folder.h"

#include <gtest/gtest.h>

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <iterator>
#include <numeric>
#include <string>
#include <variant>
#include <vector>

namespace selvage::base {
namespace {

TEST(Sha256, AgreesWithThePublishedExample) {
    // FIPS 180-4 example, message "abc".
    EXPECT_EQ(sha256_hex("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
}

TEST(WriteFile, ReplacesTheWholeFileAndLeavesNothingBeside) {
    const TemporaryFolder folder("write-file");
    write_file(folder.path() / "a.txt", "one");
    write_file(folder.path() / "a.txt", "two");
    EXPECT_EQ(read_file(folder.path() / "a.txt"), "two");
    EXPECT_EQ(std::distance(std::filesystem::directory_iterator(folder.path()), std::filesystem::directory_iterator()), 1);
}

TEST(WriteFile, SaysWhatItCouldNotWrite) {
    const TemporaryFolder folder("write-fails");
    write_file(folder.path() / "file", "x");
    EXPECT_THROW(write_file(folder.path() / "file" / "below", "y"), MachineError);
    EXPECT_THROW(read_file(folder.path() / "missing"), MachineError);
}

TEST(Finding, PrintsFileRowSeverityAndHole) {
    static const Check check{"from-after-to", Severity::error, "", ""};
    EXPECT_EQ(line_of({&check, {"assays", "assays.csv", 12}, "K-07", "from 3 after to 2"}),
              "assays.csv:12: error: hole K-07: from 3 after to 2");
    EXPECT_EQ(line_of({&check, {"assays", "assays.csv", 0}, "", "no rows"}), "assays.csv: error: no rows");
}

TEST(Json, KeepsTheOrderOfMembersAndComesBack) {
    const JsonValue value = JsonObject{{"z", 1.5}, {"a", JsonArray{true, "text", JsonValue()}}, {"n", 3}};
    const std::string text = json_text(value);
    EXPECT_LT(text.find("\"z\""), text.find("\"a\""));
    EXPECT_EQ(json_text(json_from(text)), text);
    EXPECT_EQ(std::get<double>(member(json_from(text), "n")->value), 3.0);
    EXPECT_TRUE(std::holds_alternative<std::nullptr_t>(json_from("{broken").value));
}

TEST(RandomStream, IsTheSameForTheSameKeyAndOtherForAnother) {
    RandomStream a("test", {1, 2}), b("test", {1, 2}), c("test", {2, 1}), d("other", {1, 2});
    const std::uint64_t first = a.next();
    EXPECT_EQ(first, b.next());
    EXPECT_NE(first, c.next());
    EXPECT_NE(first, d.next());
}

TEST(RandomStream, HasTheMomentsOfItsDistributions) {
    RandomStream stream("moments", {});
    constexpr int n = 200000;
    double sum = 0, squares = 0, uniform = 0;
    for (int i = 0; i < n; ++i) {
        const double z = stream.normal();
        sum += z;
        squares += z * z;
        uniform += stream.uniform();
    }
    EXPECT_NEAR(sum / n, 0.0, 0.01);  // four standard errors
    EXPECT_NEAR(squares / n, 1.0, 0.013);
    EXPECT_NEAR(uniform / n, 0.5, 0.003);
}

TEST(ParallelFor, DoesEveryItemOnce) {
    for (const std::size_t jobs : {std::size_t{1}, std::size_t{4}}) {
        set_jobs(jobs);
        std::vector<int> done(10000, 0);
        parallel_for(done.size(), [&](std::size_t i) { ++done[i]; });
        EXPECT_EQ(std::accumulate(done.begin(), done.end(), 0), 10000);
    }
    set_jobs(0);
}

}  // namespace
}  // namespace selvage::base
