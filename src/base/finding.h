#pragma once

#include <cstddef>
#include <string>
#include <vector>

// Wrong data are values: what was found, where, and what to do about it. They are collected and carried on, never thrown.
namespace selvage::base {

enum class Severity { error, warning, note };

// "error", "warning" or "note".
const char* word_of(Severity severity);

// One kind of thing that can be wrong. Declared once, in the room that can find it; `app` joins the rooms' lists to one
// catalogue.
struct Check {
    const char* id;  // plain words with hyphens: "from-after-to"
    Severity severity;
    const char* meaning;     // what is wrong, one sentence
    const char* what_to_do;  // what the person can do, one sentence
};

// A place in the input, as the person sees it. row 0 means the whole table or file.
struct Origin {
    std::string table;    // the contract's table name, "project" or "style"
    std::string source;   // the file as the project file writes it
    std::size_t row = 0;  // line in the file, header = 1; a multi-line record's first
};

struct Finding {
    const Check* check = nullptr;
    Origin origin;
    std::string hole;     // empty where none is concerned
    std::string message;  // this case, with its figures, and what was done about it
};

// "collars.csv:12: error: hole K-07: ..." as it goes to stderr.
std::string line_of(const Finding& finding);

// What a stage returns: a value that can be used, and what was wrong on the way.
template <typename T>
struct Checked {
    T value;
    std::vector<Finding> findings;
};

// Appends `more` to `all`.
void append(std::vector<Finding>& all, std::vector<Finding> more);

}  // namespace selvage::base
