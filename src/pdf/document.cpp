#include "pdf/document.h"

#include "base/text.h"
#include "pdf/faces.h"
#include "pdf/haru.h"
#include "pdf/page_content.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

namespace selvage::pdf {

namespace {

using drawing::Sheet;

std::string number(double points) {
    std::string out;
    append_number(out, points);
    return out;
}

std::string rectangle(const drawing::Box& box) {
    return fmt::format("[{} {} {} {}]", number(box.left * points_per_mm), number(box.bottom * points_per_mm),
                       number(box.right * points_per_mm), number(box.top * points_per_mm));
}

// ISO 32000-1, 14.11.4.4: what one page has in every document, under the names that its operators use.
struct SharedResources {
    HPDF_Dict fonts, patterns, layers;
};

HPDF_Dict add_pattern(Haru& haru, const drawing::Pattern& pattern) {
    const std::string width = number(pattern.across_mm * points_per_mm), height = number(2.0 * pattern.up_mm * points_per_mm);
    return haru.stream(pattern_content(pattern),
                       fmt::format("/Type /Pattern /PatternType 1 /PaintType 1 /TilingType 2 /BBox [0 0 {0} {1}] /XStep {0} "
                                   "/YStep {1} /Resources << >>",
                                   width, height));
}

// Layers by meaning (optional content, 8.11): all shown at first, listed in the order in which they first appear.
HPDF_Dict add_layers(Haru& haru, const std::vector<std::string>& names) {
    std::string all, named;
    for (std::size_t i = 0; i < names.size(); ++i) {
        const std::string group = Haru::reference(haru.object("/Type /OCG /Name " + text_string(names[i])));
        all += group + " ";
        named += fmt::format("/L{} {}\n", i, group);
    }
    HPDF_Dict properties = haru.object(fmt::format("/OCGs [{0}]\n/D << /Order [{0}] >>", all));
    HPDF_Dict_Add(haru.document()->catalog, "OCProperties", properties);
    return haru.object(named);
}

SharedResources add_resources(Haru& haru, const Fonts& fonts, const Resources& used) {
    std::string patterns;
    for (std::size_t i = 0; i < used.patterns.size(); ++i)
        patterns += fmt::format("/P{} {}\n", i, Haru::reference(add_pattern(haru, used.patterns[i])));
    return {haru.object(add_faces(haru, fonts, used.codes)), haru.object(patterns), add_layers(haru, used.layers)};
}

// A viewport with a rectilinear measure (12.9): a reader's measuring tool gives lengths of the ground.
std::string viewport(const drawing::Window& window) {
    const double units_per_point = window.units_per_mm / points_per_mm;
    const std::string unit = text_string(window.unit), square = text_string(window.unit + "\xc2\xb2");
    const std::string ratio = text_string("1:" + base::significant(window.metres_per_mm * 1000.0, 6));
    return fmt::format(
        "/Type /Viewport /BBox {} /Measure << /Type /Measure /Subtype /RL /R {}\n"
        "/X [<< /Type /NumberFormat /U {} /C {} /D 100 >>]\n"
        "/D [<< /Type /NumberFormat /U {} /C 1 /D 100 >>]\n"
        "/A [<< /Type /NumberFormat /U {} /C 1 /D 10 >>] >>",
        rectangle(window.box), ratio, unit, base::significant(units_per_point, 12), unit, square);
}

HPDF_Page add_page(Haru& haru, const Sheet& sheet, const std::string& operators, const SharedResources& shared) {
    HPDF_Page page = HPDF_AddPage(haru.document());
    haru.check("adding a page");
    HPDF_Page_SetWidth(page, static_cast<HPDF_REAL>(sheet.width_mm * points_per_mm));
    HPDF_Page_SetHeight(page, static_cast<HPDF_REAL>(sheet.height_mm * points_per_mm));
    HPDF_Stream_Write(static_cast<HPDF_PageAttr>(page->attr)->stream, reinterpret_cast<const HPDF_BYTE*>(operators.data()),
                      static_cast<HPDF_UINT>(operators.size()));
    auto resources = static_cast<HPDF_Dict>(HPDF_Page_GetInheritableItem(page, "Resources", HPDF_OCLASS_DICT));
    HPDF_Dict_Add(resources, "Font", shared.fonts);
    HPDF_Dict_Add(resources, "Pattern", shared.patterns);
    HPDF_Dict_Add(resources, "Properties", shared.layers);
    if (!sheet.windows.empty()) {
        HPDF_Array viewports = HPDF_Array_New(haru.document()->mmgr);
        for (const drawing::Window& window : sheet.windows) HPDF_Array_Add(viewports, haru.object(viewport(window)));
        HPDF_Dict_Add(page, "VP", viewports);
    }
    return page;
}

struct Target {
    HPDF_Page page;
    drawing::Point at;
};

// Where two sheets have a destination of one name the first is taken.
std::map<std::string, Target> targets_of(const std::vector<Sheet>& sheets, const std::vector<HPDF_Page>& pages) {
    std::map<std::string, Target> targets;
    for (std::size_t i = 0; i < sheets.size(); ++i)
        for (const drawing::Destination& destination : sheets[i].destinations)
            targets.insert({destination.name, {pages[i], destination.at}});
    return targets;
}

// Links whose destination this document does not hold are left out: a single sheet does not lead to the others.
void add_links(Haru& haru, HPDF_Page page, const std::vector<LinkArea>& links, const std::map<std::string, Target>& targets) {
    HPDF_Array annotations = nullptr;
    for (const LinkArea& link : links) {
        const auto target = targets.find(link.destination);
        if (target == targets.end()) continue;
        if (annotations == nullptr) {
            annotations = HPDF_Array_New(haru.document()->mmgr);
            HPDF_Dict_Add(page, "Annots", annotations);
        }
        const drawing::Point at = target->second.at;
        HPDF_Array_Add(annotations, haru.object(fmt::format(
                                        "/Type /Annot /Subtype /Link /F 4 /Rect {} /Border [0 0 0] /Dest [{} /XYZ {} {} null]",
                                        rectangle(link.box), Haru::reference(target->second.page), number(at.x * points_per_mm),
                                        number(at.y * points_per_mm))));
    }
}

HPDF_Outline add_bookmark(Haru& haru, HPDF_Outline parent, HPDF_Page page, const std::string& title) {
    HPDF_Outline entry = HPDF_CreateOutline(haru.document(), parent, title.c_str(), HPDF_GetEncoder(haru.document(), "UTF-8"));
    HPDF_Destination destination = HPDF_Page_CreateDestination(page);
    haru.check("adding a bookmark");
    HPDF_Destination_SetFit(destination);
    HPDF_Outline_SetDestination(entry, destination);
    return entry;
}

// "cross-section" to "Cross sections".
std::string heading_of_kind(const std::string& kind) {
    std::string words = kind;
    std::replace(words.begin(), words.end(), '-', ' ');
    if (!words.empty() && words[0] >= 'a' && words[0] <= 'z') words[0] = static_cast<char>(words[0] - 'a' + 'A');
    return words + (words.empty() || words.back() == 's' ? "" : "s");
}

// A bookmark a sheet; sheets of one kind that follow each other stand under a heading, shut at first.
void add_bookmarks(Haru& haru, const std::vector<Sheet>& sheets, const std::vector<HPDF_Page>& pages) {
    for (std::size_t first = 0, end = 0; first < sheets.size(); first = end) {
        while (end < sheets.size() && sheets[end].kind == sheets[first].kind) ++end;
        HPDF_Outline heading = nullptr;
        if (end - first > 1) {
            heading = add_bookmark(haru, nullptr, pages[first], heading_of_kind(sheets[first].kind));
            HPDF_Outline_SetOpened(heading, HPDF_FALSE);
        }
        for (std::size_t i = first; i < end; ++i) add_bookmark(haru, heading, pages[i], sheets[i].title);
    }
}

// A page is called by its sheet's name, "S9", or else by its number.
std::string page_labels(const std::vector<Sheet>& sheets) {
    std::string labels;
    for (std::size_t i = 0; i < sheets.size(); ++i) {
        const std::string name = sheets[i].name.empty() ? std::to_string(i + 1) : sheets[i].name;
        labels += fmt::format("{} << /P {} >>\n", i, text_string(name));
    }
    return "/Nums [" + labels + "]";
}

std::optional<HPDF_Date> date_of(const std::string& iso) {
    if (iso.size() < 10) return std::nullopt;
    const auto year = base::parse_number(iso.substr(0, 4)), month = base::parse_number(iso.substr(5, 2)),
               day = base::parse_number(iso.substr(8, 2));
    if (!year || !month || !day) return std::nullopt;
    return HPDF_Date{static_cast<int>(*year), static_cast<int>(*month), static_cast<int>(*day), 0, 0, 0, 'Z', 0, 0};
}

void describe(Haru& haru, const std::vector<Sheet>& sheets, const DocumentInfo& info) {
    HPDF_Doc document = haru.document();
    HPDF_SetCurrentEncoder(document, "UTF-8");
    HPDF_SetInfoAttr(document, HPDF_INFO_TITLE, info.title.c_str());
    if (!info.subject.empty()) HPDF_SetInfoAttr(document, HPDF_INFO_SUBJECT, info.subject.c_str());
    HPDF_SetInfoAttr(document, HPDF_INFO_CREATOR, "Selvage");
    if (const auto date = date_of(info.date)) HPDF_SetInfoDateAttr(document, HPDF_INFO_CREATION_DATE, *date);
    if (sheets.size() > 1) HPDF_SetPageMode(document, HPDF_PAGE_MODE_USE_OUTLINE);
    HPDF_Dict_Add(document->catalog, "ViewerPreferences", haru.object("/PrintScaling /None /DisplayDocTitle true"));
    HPDF_Dict_Add(document->catalog, "PageLabels", haru.object(page_labels(sheets)));
}

}  // namespace

std::string document_bytes(const std::vector<Sheet>& sheets, const Fonts& fonts, const DocumentInfo& info) {
    Resources used;
    std::vector<PageContent> contents;
    contents.reserve(sheets.size());
    for (const Sheet& sheet : sheets) contents.push_back(page_content(sheet, fonts.metrics, used));

    Haru haru;
    HPDF_SetCompressionMode(haru.document(), HPDF_COMP_ALL);
    HPDF_UseUTFEncodings(haru.document());
    HPDF_SetPagesConfiguration(haru.document(), 50);
    const SharedResources shared = add_resources(haru, fonts, used);
    std::vector<HPDF_Page> pages;
    for (std::size_t i = 0; i < sheets.size(); ++i) pages.push_back(add_page(haru, sheets[i], contents[i].operators, shared));
    add_bookmarks(haru, sheets, pages);
    const std::map<std::string, Target> targets = targets_of(sheets, pages);
    for (std::size_t i = 0; i < sheets.size(); ++i) add_links(haru, pages[i], contents[i].links, targets);
    describe(haru, sheets, info);
    return haru.bytes();
}

}  // namespace selvage::pdf
