#include "support/project_tables.h"

#include "base/file.h"
#include "checks/check_records.h"
#include "settings/read.h"
#include "support/temporary_folder.h"
#include "tables/read.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <utility>

namespace selvage::test {

namespace {

std::size_t line_at(const std::string& text, std::size_t at) {
    return 1 + static_cast<std::size_t>(std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(at), '\n'));
}

const std::string project_text = R"([project]
name = "Tidy"
azimuth_reference = "magnetic"
declination = 2.0

[tables]
collars = "collars.csv"
surveys = "surveys.csv"
picks = "picks.csv"
geology = "geology.csv"
assays = "assays.csv"
structures = "structures.csv"
recovery = "recovery.csv"
outcrops = "outcrops.csv"
pads = "pads.csv"

[[vein]]
name = "Lode"

[[vein]]
name = "Branch"
)";

// K-01 to K-06 are done, 100 m each; K-02W1 leaves K-02 at 40 m; K-07 is active at 60 m, K-08 planned.
std::string collars() {
    std::string text =
        "hole,east,north,elevation,depth,azimuth,dip,status,campaign,date_started,date_finished,parent,kickoff,drilled,target,"
        "target_vein,"
        "target_east,target_north,target_elevation\n";
    for (int i = 1; i <= 6; ++i)
        text +=
            fmt::format("K-0{},{},6000000,1000,100,90,60,done,2026,2026-03-0{},2026-03-1{},,,,,,,,\n", i, 500000 + 50 * i, i, i);
    text += "K-02W1,500100,6000000,1000,110,,,done,2026,,,K-02,40,,,,,,\n";
    text += "K-07,500350,6000000,1000,120,90,60,active,2026,2026-04-01,,,,60,,,,,\n";
    text += "K-08,500400,6000000,1000,120,90,60,planned,2026,,,,,,T-1,Lode,500450,6000000,913.4\n";
    return text;
}

std::string surveys() {
    std::string text = "hole,depth,azimuth,dip,method,run,azimuth_reference,magnetic_field,date,use\n";
    for (int i = 1; i <= 6; ++i)
        for (int depth = 0; depth <= 90; depth += 15)
            text += fmt::format("K-0{},{},88.{},60,single shot,M1,,55000,2026-03-1{},\n", i, depth, depth / 15, i);
    for (const int depth : {55, 80, 105}) text += fmt::format("K-02W1,{},91,58,single shot,M1,,55010,,\n", depth);
    for (const int depth : {0, 30, 60}) text += fmt::format("K-07,{},88,60,single shot,M1,,54990,2026-04-05,\n", depth);
    return text;
}

std::string assays() {
    std::string text = "hole,from,to,sample,sample_type,status,ag_gpt,pb_pct\n";
    for (int i = 1; i <= 6; ++i)
        for (int n = 0; n < 6; ++n)
            text += fmt::format("K-0{},{},{},S{}{},,,{},{}\n", i, 68 + n, 69 + n, i, n, n == 2 ? 300 : 20 + n,
                                n == 5 ? "<0.01" : "1.5");
    text += "K-01,,,Q1,standard,,105,1.1\n";
    return text;
}

std::string geology() {
    std::string text = "hole,from,to,rock,vein\n";
    for (int i = 1; i <= 6; ++i) text += fmt::format("K-0{},0,70,tuff,\nK-0{},70,71,quartz,Lode\nK-0{},71,100,tuff,\n", i, i, i);
    return text;
}

std::string recovery() {
    std::string text = "hole,from,to,recovery,recovered,rqd\n";
    for (int from = 0; from < 99; from += 3) text += fmt::format("K-01,{},{},98,,80\n", from, from + 3);
    return text;
}

std::string structures() {
    std::string text = "hole,depth,kind,alpha,beta,dip,dip_direction,quality,vein\n";
    for (int i = 1; i <= 6; ++i)
        text += fmt::format("K-0{},70,contact,60,1{},,,1,Lode\nK-0{},71,contact,61,,,,2,Lode\n", i, i, i);
    return text + "K-01,20,joint,,,70,120,2,\n";
}

}  // namespace

std::size_t ProjectTables::add(const std::string& table, const std::string& line) {
    std::string& text = tables.at(table);
    text += line + "\n";
    return line_at(text, text.size() - line.size() - 1);
}

std::size_t ProjectTables::replace(const std::string& table, const std::string& old_text, const std::string& new_text) {
    std::string& text = table == "project" ? project : tables.at(table);
    const std::size_t at = text.find(old_text);
    EXPECT_NE(at, std::string::npos) << old_text << " is not in " << table;
    if (at == std::string::npos) return 0;
    text.replace(at, old_text.size(), new_text);
    return line_at(text, at);
}

ProjectTables tidy_project() {
    ProjectTables files;
    files.project = project_text;
    files.tables = {
        {"collars", collars()},
        {"surveys", surveys()},
        {"picks", "hole,from,to,vein,state,certainty,zone\nK-01,70,71,Lode,,1,\nK-02,70,71,Lode,,1,\n"},
        {"geology", geology()},
        {"assays", assays()},
        {"structures", structures()},
        {"recovery", recovery()},
        {"outcrops",
         "east,north,elevation,vein,dip,dip_direction\n500120,6000000,1001,Lode,80,90\n500220,6000010,1002,Lode,80,90\n"},
        {"pads", "pad,east,north,elevation\nP1,500050,6000000,1000\nP2,500100,6000000,1000\n"}};
    return files;
}

ReadProject read(const ProjectTables& files) {
    const TemporaryFolder folder("tables");
    base::write_file(folder.path() / "project.toml", files.project);
    for (const auto& [table, text] : files.tables) base::write_file(folder.path() / (table + ".csv"), text);
    ReadProject result;
    base::Checked<settings::Project> project = settings::read_project(folder.path() / "project.toml");
    result.project = std::move(project.value);
    base::append(result.findings, std::move(project.findings));
    base::Checked<tables::Records> records = tables::read_records(result.project);
    result.records = std::move(records.value);
    base::append(result.findings, std::move(records.findings));
    return result;
}

ReadProject read_and_check(const ProjectTables& files) {
    ReadProject result = read(files);
    std::vector<std::string> veins;
    for (const settings::VeinSetting& vein : result.project.veins) veins.push_back(vein.name);
    base::Checked<tables::Records> usable = checks::usable_records(std::move(result.records), veins);
    result.records = std::move(usable.value);
    base::append(result.findings, std::move(usable.findings));
    return result;
}

std::vector<base::Finding> found(const std::vector<base::Finding>& findings, const std::string& check) {
    std::vector<base::Finding> own;
    std::copy_if(findings.begin(), findings.end(), std::back_inserter(own),
                 [&](const base::Finding& finding) { return finding.check->id == check; });
    return own;
}

std::string lines_of(const std::vector<base::Finding>& findings) {
    std::string lines;
    for (const base::Finding& finding : findings) lines += fmt::format("{} [{}]\n", base::line_of(finding), finding.check->id);
    return lines;
}

}  // namespace selvage::test
