#include "base/file.h"
#include "pdf/document.h"
#include "settings/read.h"
#include "studies/calibration_page.h"
#include "studies/studies.h"

#include <cstdio>
#include <filesystem>

// Runs the simulation studies and writes their page: selvage_calibration FOLDER writes FOLDER/calibration.pdf.
int main(int count, char** words) {
    using namespace selvage;
    if (count != 2) {
        std::fprintf(stderr, "usage: selvage_calibration FOLDER\n");
        return 2;
    }
    try {
        const drawing::Style style = settings::read_style("default").value;
        const pdf::Fonts fonts = pdf::find_fonts(style.font_family);
        const drawing::Sheet page = studies::calibration_page(studies::all_studies(), style, fonts.metrics);
        const std::filesystem::path file = std::filesystem::path(words[1]) / "calibration.pdf";
        base::write_file(
            file, pdf::document_bytes({page}, fonts, {"Calibration of Selvage", "simulation studies, all data invented", ""}));
    } catch (const base::MachineError& error) {
        std::fprintf(stderr, "%s\n", error.message.c_str());
        return 1;
    }
    return 0;
}
