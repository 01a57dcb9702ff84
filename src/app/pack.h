#pragma once

#include "app/results.h"
#include "base/json.h"
#include "drawing/style.h"
#include "output/write.h"
#include "pdf/document.h"
#include "sheets/compose.h"

#include <optional>
#include <string>
#include <vector>

namespace selvage::app {

// The pack that this one follows.
struct EarlierPack {
    std::string date;                        // ISO 8601, or empty
    std::vector<base::JsonValue> forecasts;  // its own and those it carried on, oldest first
};

// Every file of the pack: pack.pdf, sheets/*.pdf, tables/*.csv, run.json, which carries earlier forecasts on.
std::vector<output::PackFile> pack_files(const Results& results, const drawing::Style& style, const pdf::Fonts& fonts,
                                         std::optional<EarlierPack> earlier);

// pack.pdf of all sheets and sheets/*.pdf of each by itself, each document on a thread of its own.
std::vector<output::PackFile> documents(const std::vector<drawing::Sheet>& sheets, const pdf::Fonts& fonts,
                                        const sheets::RunFacts& facts);

}  // namespace selvage::app
