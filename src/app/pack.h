#pragma once

#include "app/results.h"
#include "base/json.h"
#include "drawing/style.h"
#include "output/write.h"
#include "pdf/document.h"
#include "sheets/compose.h"
#include "sheets/contents.h"

#include <optional>
#include <string>
#include <vector>

namespace selvage::app {

// The pack that this one follows.
struct EarlierPack {
    std::string date;                        // ISO 8601, or empty
    std::vector<base::JsonValue> forecasts;  // its own and those it carried on, oldest first
};

struct Pack {
    std::vector<output::PackFile> files;       // pack.pdf, sheets/*.pdf, tables/*.csv, model/*, run.json
    std::vector<sheets::SheetGroup> contents;  // of pack.pdf
};

// The day of the pack: the project's, else the newest of the data; ISO 8601, or empty.
std::string date_of_pack(const Results& results);

// The pack; its run.json carries earlier forecasts on.
Pack make_pack(const Results& results, const drawing::Style& style, const pdf::Fonts& fonts, std::optional<EarlierPack> earlier);

// pack.pdf of all sheets and sheets/*.pdf of each by itself, each document on a thread of its own.
// `subject`: what the documents' properties call them.
std::vector<output::PackFile> documents(const std::vector<drawing::Sheet>& sheets, const pdf::Fonts& fonts,
                                        const sheets::RunFacts& facts, const std::string& subject);

}  // namespace selvage::app
