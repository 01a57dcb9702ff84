#pragma once

#include "base/finding.h"

// What can be wrong with a project file or a style file.
namespace selvage::settings {

extern const base::Check file_syntax;
extern const base::Check unknown_key;
extern const base::Check wrong_value;
extern const base::Check missing_key;
extern const base::Check not_honoured_yet;
extern const base::Check no_veins;
extern const base::Check font_missing;

}  // namespace selvage::settings
