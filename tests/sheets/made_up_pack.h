#pragma once

#include "app/results.h"
#include "pdf/document.h"
#include "sheets/compose.h"
#include "sheets/page.h"

#include <vector>

namespace selvage::sheets {

// The invented example project taken all the way to its sheets, once for all tests of this room.
struct MadeUpPack {
    app::Results run_results;
    drawing::Style style;
    pdf::Fonts fonts;
    RunFacts run{"Cold Hythe 0000", "0000", ""};
    std::vector<drawing::Sheet> sheets;

    Results results() const {
        return {run_results.project,   run_results.records,    run_results.paths, run_results.orientations,
                run_results.events,    run_results.intercepts, run_results.veins, run_results.forecast.pierces,
                run_results.step_outs, run_results.site,       run_results.solids};
    }
    Tools tools() const { return {style, fonts.metrics}; }
};

const MadeUpPack& made_up_pack();

// The words of a sheet, one after another, and the boxes that they cover.
struct SetWords {
    const drawing::Text* text = nullptr;
    drawing::Box box;
};
std::vector<SetWords> words_of(const drawing::Sheet& sheet, const drawing::FontMetrics& fonts);

}  // namespace selvage::sheets
