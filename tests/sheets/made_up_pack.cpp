#include "sheets/made_up_pack.h"

#include "settings/read.h"
#include "support/example_site.h"
#include "support/temporary_folder.h"

#include <utility>
#include <variant>

namespace selvage::sheets {

const MadeUpPack& made_up_pack() {
    static const MadeUpPack pack = [] {
        const TemporaryFolder folder("sheets");
        made_up::cold_hythe().write(folder.path());
        MadeUpPack made;
        base::Checked<settings::Project> project = settings::read_project(folder.path() / "project.toml");
        made.run_results = app::model_and_forecast(app::read_and_place(std::move(project.value), std::move(project.findings)));
        made.style = settings::read_style("default").value;
        made.fonts = pdf::find_fonts(made.style.font_family);
        made.sheets = compose_pack(made.results(), made.run, made.style, made.fonts.metrics);
        return made;
    }();
    return pack;
}

std::vector<SetWords> words_of(const drawing::Sheet& sheet, const drawing::FontMetrics& fonts) {
    std::vector<SetWords> words;
    for (const drawing::Item& item : sheet.items) {
        const auto* text = std::get_if<drawing::Text>(&item.mark);
        if (text == nullptr || text->text.empty()) continue;
        const double width = drawing::text_width_mm(fonts, text->look, text->text),
                     cap = drawing::cap_height_mm(fonts, text->look);
        const double before = text->anchor == drawing::Anchor::left    ? 0.0
                              : text->anchor == drawing::Anchor::right ? width
                                                                       : width / 2.0;
        if (text->upright)
            words.push_back({text, {text->at.x - cap, text->at.y - before, text->at.x, text->at.y - before + width}});
        else
            words.push_back({text, {text->at.x - before, text->at.y, text->at.x - before + width, text->at.y + cap}});
    }
    return words;
}

}  // namespace selvage::sheets
