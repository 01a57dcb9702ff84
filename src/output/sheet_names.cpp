#include "output/write.h"

#include "base/text.h"

#include <fmt/format.h>

#include <algorithm>

namespace selvage::output {

std::string sheet_file_name(const drawing::Sheet& sheet, std::size_t number, std::size_t count) {
    const std::size_t digits = std::max<std::size_t>(2, fmt::formatted_size("{}", count));
    const std::string name = sheet.name.empty() ? std::string() : "-" + base::file_name_part(sheet.name);
    return fmt::format("sheets/{:0{}}-{}{}.pdf", number, digits, base::file_name_part(sheet.kind), name);
}

}  // namespace selvage::output
