#pragma once

#include "base/finding.h"
#include "drawing/text_width.h"
#include "settings/project.h"
#include "tables/records.h"

#include <string>
#include <vector>

// Words of the input that cannot be printed as they are.
namespace selvage::sheets {

// The checks that this room can report, for the catalogue.
const std::vector<const base::Check*>& checks();

// Names and words of the project file and the tables that hold letters which the font lacks: sheets show "?" in their place. One
// finding for each of them, at the first row that has it.
std::vector<base::Finding> missing_letters(const settings::Project& project, const tables::Records& records,
                                           const drawing::FontMetrics& fonts, const std::string& font_family);

}  // namespace selvage::sheets
