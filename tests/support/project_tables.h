#pragma once

#include "base/finding.h"
#include "settings/project.h"
#include "tables/records.h"

#include <cstddef>
#include <map>
#include <string>
#include <vector>

// A small project as the text of its files, to plant mistakes in.
namespace selvage::test {

struct ProjectTables {
    std::string project;                        // project.toml
    std::map<std::string, std::string> tables;  // "collars" -> text of collars.csv

    // Adds a line to a table, and gives its row.
    std::size_t add(const std::string& table, const std::string& line);
    // Replaces the first `old_text` of a table ("project" for the project file) and gives the row where it stands.
    std::size_t replace(const std::string& table, const std::string& old_text, const std::string& new_text);
};

// Invented: nine holes of a gently curved project, one of them a daughter, one active, one planned, with every table but
// minerals, drilling and sizes, in which there is nothing to find.
ProjectTables tidy_project();

// What the project's files are read as, with the findings of all three rooms.
struct ReadProject {
    settings::Project project;
    tables::Records records;
    std::vector<base::Finding> findings;
};
ReadProject read(const ProjectTables& files);
// The same, with the records checked.
ReadProject read_and_check(const ProjectTables& files);

// Findings of one check.
std::vector<base::Finding> found(const std::vector<base::Finding>& findings, const std::string& check);
// All findings as lines, for a failing test's message.
std::string lines_of(const std::vector<base::Finding>& findings);

}  // namespace selvage::test
