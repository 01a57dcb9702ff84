#include "sheets/starts.h"

#include "drawing/symbols.h"
#include "sheets/symbols.h"

namespace selvage::sheets {

Marks sample_start_symbol(const Point& at, const Tools& tools) {
    drawing::SymbolLook look;
    look.edge = tools.style.line("symbol_ring");
    look.fill = plain(tools.style.colour("white"));
    const std::vector<drawing::Shape> shapes = drawing::symbol("box", at, tools.style.size_mm("sample_start"), look);
    return {shapes.begin(), shapes.end()};
}

Marks start_symbol(tables::HoleType type, tables::HoleStatus status, const Point& at, DrawnSigns& drawn, const Tools& tools) {
    if (!tables::is_drill_hole(type)) {
        drawn.signs.insert(Sign::sample_start);
        drawn.sampled.insert(type);
        return sample_start_symbol(at, tools);
    }
    const CollarState state = collar_state(status);
    drawn.signs.insert(state == CollarState::drilled  ? Sign::collar_drilled
                       : state == CollarState::active ? Sign::collar_active
                                                      : Sign::collar_planned);
    return collar_symbol(state, at, tools);
}

std::string sample_word(tables::HoleType type) {
    switch (type) {
        case tables::HoleType::channel: return "channel";
        case tables::HoleType::trench: return "trench";
        case tables::HoleType::face: return "face";
        default: return {};
    }
}

std::string sample_start_words(const std::set<tables::HoleType>& kinds) {
    std::string words;
    for (auto kind = kinds.begin(); kind != kinds.end(); ++kind) {
        const bool last = std::next(kind) == kinds.end();
        words += kind == kinds.begin() ? "" : last ? " or " : ", ";
        words += sample_word(*kind);
    }
    return "start of a " + words;
}

}  // namespace selvage::sheets
