#include "drawing/clipping.h"
#include "drawing/style_roles.h"
#include "settings/read.h"
#include "sheets/changed_results.h"
#include "sheets/forecast_note.h"
#include "sheets/forecast_table.h"
#include "sheets/grade_classes.h"
#include "sheets/intercept_table.h"
#include "sheets/label_text.h"
#include "sheets/long_section_content.h"
#include "sheets/made_up_pack.h"
#include "sheets/marks.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <set>
#include <string>

namespace selvage::sheets {

namespace {

std::vector<const drawing::Sheet*> of_kind(const std::vector<drawing::Sheet>& sheets, const std::string& kind) {
    std::vector<const drawing::Sheet*> found;
    for (const drawing::Sheet& sheet : sheets)
        if (sheet.kind == kind) found.push_back(&sheet);
    return found;
}

bool says(const drawing::Sheet& sheet, const std::string& words) {
    return std::any_of(sheet.items.begin(), sheet.items.end(), [&](const drawing::Item& item) {
        const auto* text = std::get_if<drawing::Text>(&item.mark);
        return text != nullptr && text->text.find(words) != std::string::npos;
    });
}

std::vector<drawing::Sheet> pack_in(const std::string& style_name) {
    const MadeUpPack& pack = made_up_pack();
    return compose_pack(pack.results(), pack.run, settings::read_style(style_name).value, pack.fonts.metrics);
}

TEST(Pack, EveryKindOfSheetIsOneThatAStyleMayChoose) {
    for (const drawing::Sheet& sheet : made_up_pack().sheets)
        EXPECT_NE(std::find(drawing::sheet_kinds().begin(), drawing::sheet_kinds().end(), sheet.kind),
                  drawing::sheet_kinds().end())
            << sheet.kind;
}

TEST(Pack, InReportStyleNamesNoPlannedHoleAndNoChance) {
    std::vector<std::string> forbidden{"planned", "chance", "likely", "step-out", "8 holes", "8 in 10", "due "};
    for (const tables::Collar& collar : made_up_pack().run_results.records.collars)
        if (collar.status == tables::HoleStatus::planned) forbidden.push_back(collar.hole);
    ASSERT_GT(forbidden.size(), 5u);
    const std::vector<drawing::Sheet> sheets = pack_in("report");
    ASSERT_FALSE(sheets.empty());
    for (const drawing::Sheet& sheet : sheets)
        for (const std::string& words : forbidden) EXPECT_FALSE(says(sheet, words)) << sheet.title << ": " << words;
}

// A draft of a public figure says that it is one, who has to approve it and under which code, once a sheet; its status is the
// project's own, or blank.
TEST(Pack, InReportStyleSheetsAreDraftsAndNoWorkingDocuments) {
    drawing::Style style = settings::read_style("report").value;
    style.content.sheets.push_back("methods");  // where all cautions stand in full
    ChangedResults changed;
    changed.project.disclosure = {"Code of this place", "2031"};
    for (const std::string status : {"", "for the board"}) {
        changed.project.title_block.status = status;
        const std::vector<drawing::Sheet> sheets =
            compose_pack(changed.results(), made_up_pack().run, style, made_up_pack().fonts.metrics);
        ASSERT_FALSE(sheets.empty());
        for (const drawing::Sheet& sheet : sheets) {
            for (const char* words : {"working document", "Working document"}) EXPECT_FALSE(says(sheet, words)) << sheet.title;
            EXPECT_TRUE(says(sheet, "Draft, not for release.")) << sheet.title;
            const std::string all = all_words({sheet});
            for (const char* part : {"qualified or competent person", "Code of this place, 2031", "is not proven"})
                EXPECT_TRUE(holds(all, part)) << sheet.title << ": " << part;
            EXPECT_EQ(says(sheet, "for the board"), !status.empty()) << sheet.title;
        }
    }
    for (const drawing::Sheet* sheet : of_kind(made_up_pack().sheets, "plan"))
        EXPECT_TRUE(says(*sheet, "Working document, not for release."));
}

// A hole that is being drilled has missed nothing yet: a public reader has to see that it goes on, and nothing of where to.
TEST(Pack, InReportStyleActiveHolesAreActiveToTheDepthReached) {
    const std::vector<drawing::Sheet> report = pack_in("report");
    std::size_t active = 0;
    for (const paths::Path& path : made_up_pack().run_results.paths) {
        if (path.status != tables::HoleStatus::active) continue;
        ++active;
        const std::string drilled = length_text(path.drilled_depth, made_up_pack().run_results.records.frame);
        for (const drawing::Sheet* sheet : of_kind(report, "long-section")) {
            EXPECT_TRUE(says(*sheet, "active, drilled to " + drilled + ", vein not met so far")) << path.hole;
            EXPECT_FALSE(says(*sheet, "passes off")) << path.hole;
        }
        for (const drawing::Sheet* sheet : of_kind(report, "plan")) {
            EXPECT_TRUE(says(*sheet, "active, drilled to " + drilled)) << path.hole;
            EXPECT_TRUE(says(*sheet, "collar, active"));
        }
        for (const drawing::Sheet* sheet : of_kind(report, "intercept-table"))
            EXPECT_TRUE(says(*sheet, "active, drilled to " + drilled + ", no result yet")) << path.hole;
        const auto levels = of_kind(report, "level-plan");
        EXPECT_TRUE(std::any_of(levels.begin(), levels.end(), [&](const drawing::Sheet* sheet) {
            return says(*sheet, path.hole + " active");
        })) << path.hole;
        const auto sections = of_kind(report, "cross-section");
        EXPECT_TRUE(std::any_of(sections.begin(), sections.end(), [&](const drawing::Sheet* sheet) {
            return says(*sheet, path.hole + " drilled to " + drilled);
        })) << path.hole;
    }
    EXPECT_GT(active, 0u);
    for (const drawing::Sheet& sheet : report) EXPECT_FALSE(says(sheet, "is a forecast")) << sheet.title;
}

TEST(Pack, InReportStyleVeinsShowTheirDoubtAndWhereTheModelEnds) {
    const std::vector<drawing::Sheet> report = pack_in("report");
    const auto is_doubtful = [](const drawing::Sheet& sheet) {
        return std::count_if(sheet.items.begin(), sheet.items.end(), [](const drawing::Item& item) {
                   const auto* text = std::get_if<drawing::Text>(&item.mark);
                   return text != nullptr && text->text == "?";
               }) > 1;  // one of them the legend's
    };
    std::size_t doubtful = 0;
    for (const drawing::Sheet* working : of_kind(made_up_pack().sheets, "cross-section"))
        for (const drawing::Sheet* sheet : of_kind(report, "cross-section"))
            if (sheet->name == working->name && is_doubtful(*working)) doubtful += is_doubtful(*sheet) ? 1 : 0;
    EXPECT_GT(doubtful, 1u);
    for (const char* kind : {"cross-section", "plan"}) {
        const std::vector<const drawing::Sheet*> sheets = of_kind(report, kind);
        EXPECT_TRUE(std::any_of(sheets.begin(), sheets.end(), [](const drawing::Sheet* sheet) {
            return says(*sheet, "end of the model");
        })) << kind;
    }
}

TEST(Pack, InReportStyleStandsByItself) {
    for (const drawing::Sheet& sheet : pack_in("report")) EXPECT_FALSE(says(sheet, "since the last pack")) << sheet.title;
}

TEST(Pack, InReportStyleNilResultsHaveTheirDepths) {
    const std::vector<drawing::Sheet> report = pack_in("report");
    std::size_t nil = 0;
    for (const drawing::Sheet* sheet : of_kind(report, "intercept-table"))
        for (const drawing::Item& item : sheet->items) {
            const auto* text = std::get_if<drawing::Text>(&item.mark);
            if (text == nullptr) continue;
            const bool short_of_it = text->text.rfind("stopped short", 0) == 0;
            if (!short_of_it && text->text.rfind("no vein logged", 0) != 0) continue;
            ++nil;
            EXPECT_TRUE(holds(text->text, short_of_it ? "the hole ends at " : "logged at ")) << text->text;
        }
    EXPECT_GT(nil, 5u);
}

TEST(Pack, InScreenStyleStepOutsKeepTheirPlacesWhole) {
    const std::vector<drawing::Sheet> screen = pack_in("screen");
    const std::string words = all_words([&] {
        std::vector<drawing::Sheet> next;
        for (const drawing::Sheet* sheet : of_kind(screen, "step-outs")) next.push_back(*sheet);
        return next;
    }());
    ASSERT_FALSE(made_up_pack().run_results.step_outs.empty());
    for (const planning::StepOut& one : made_up_pack().run_results.step_outs) {
        EXPECT_TRUE(holds(words, one.target)) << one.target;
        const Eigen::Vector3d collar = made_up_pack().run_results.records.frame.map_from_project(one.hole.collar);
        for (const double coordinate : {collar.x(), collar.y(), collar.z()})
            EXPECT_TRUE(holds(words, spaced_thousands(coordinate))) << one.target;
    }
}

// A long line keeps a label from all the room that is near its sign.
TEST(LongSection, LinesOfForecastsAreNarrow) {
    const MadeUpPack& pack = made_up_pack();
    std::size_t broken = 0;
    for (const drawing::Sheet* sheet : of_kind(pack.sheets, "long-section"))
        for (const drawing::Item& item : sheet->items) {
            const auto* text = std::get_if<drawing::Text>(&item.mark);
            if (text == nullptr || text->text.rfind("chance that it is there", 0) != 0) continue;
            EXPECT_LT(drawing::text_width_mm(pack.fonts.metrics, text->look, text->text), 46.5) << text->text;
            broken += text->text.find(';') == std::string::npos ? 1 : 0;
        }
    EXPECT_GT(broken, 0u);
}

// Signs of the legend, however tall, keep off each other and off the heading over them.
TEST(Column, ARowIsAsHighAsItsSign) {
    const MadeUpPack& pack = made_up_pack();
    constexpr double radius = 2.6;
    PageContent content;
    content.kind = "plan";
    const auto draw = [&](const drawing::Box& box) {
        return Marks{ring({(box.left + box.right) / 2.0, (box.bottom + box.top) / 2.0}, radius, pack.style.line("planned_beyond"),
                          plain(pack.style.colour("planned_pale")))};
    };
    content.legend = {{"over all", {{"first", draw}, {"second", draw}}}};
    const drawing::Sheet sheet = begin_page(content, pack.results(), pack.run, pack.tools());
    std::vector<double> middles;
    double heading = 0.0;
    for (const drawing::Item& item : sheet.items) {
        if (const auto* text = std::get_if<drawing::Text>(&item.mark); text != nullptr && text->text == "over all")
            heading = box_of_words(*text, pack.fonts.metrics).bottom;
        const auto* shape = std::get_if<drawing::Shape>(&item.mark);
        if (shape == nullptr || !shape->line || !shape->fill || shape->rings.front().size() < 12) continue;
        double low = 1e9, high = -1e9;
        for (const drawing::Point& point : shape->rings.front()) {
            low = std::min(low, point.y);
            high = std::max(high, point.y);
        }
        middles.push_back((low + high) / 2.0);
    }
    ASSERT_EQ(middles.size(), 2u);
    EXPECT_GE(std::abs(middles[0] - middles[1]), 2.0 * radius);
    EXPECT_GE(heading, std::max(middles[0], middles[1]) + radius);
}

TEST(Pack, InReportStyleSectionsKeepTheirNames) {
    std::map<std::string, std::string> titles;  // and the subtitle's words: what it looks at
    for (const drawing::Sheet* sheet : of_kind(made_up_pack().sheets, "cross-section")) titles[sheet->name] = sheet->title;
    const std::vector<drawing::Sheet> report = pack_in("report");
    for (const intercepts::Intercept& hit : made_up_pack().run_results.intercepts.met) {
        const std::size_t before = static_cast<std::size_t>(
            std::count_if(made_up_pack().sheets.begin(), made_up_pack().sheets.end(), [&](const drawing::Sheet& sheet) {
                return sheet.kind == "cross-section" && says(sheet, hit.hole + " " + hit.vein + ",");
            }));
        const std::size_t after =
            static_cast<std::size_t>(std::count_if(report.begin(), report.end(), [&](const drawing::Sheet& sheet) {
                return sheet.kind == "cross-section" && titles.count(sheet.name) > 0 &&
                       says(sheet, hit.hole + " " + hit.vein + ",");
            }));
        EXPECT_EQ(after > 0, before > 0) << hit.hole;
    }
}

TEST(Pack, InScreenStyleEveryPageIs16To9AndToAScaleOfTheLadder) {
    const drawing::Style style = settings::read_style("screen").value;
    for (const drawing::Sheet& sheet : pack_in("screen")) {
        EXPECT_NEAR(sheet.width_mm, style.page.width_mm, 1e-6) << sheet.title;
        EXPECT_NEAR(sheet.height_mm, style.page.height_mm, 1e-6) << sheet.title;
        for (const drawing::Item& item : sheet.items)
            if (const auto* text = std::get_if<drawing::Text>(&item.mark)) {
                EXPECT_GE(text->look.size_pt, 12.0 - 1e-4) << text->text;
            }
        if (sheet.kind != "cross-section" && sheet.kind != "plan") continue;
        const double denominator = sheet.windows.front().metres_per_mm * 1000.0;
        const std::vector<double>& ladder = scale_ladder(false);
        EXPECT_TRUE(std::any_of(ladder.begin(), ladder.end(), [&](double step) {
            return std::abs(step - denominator) < 1e-6 * step;
        })) << denominator;
    }
}

TEST(Pack, HoldsItsSheetsInOrder) {
    const MadeUpPack& pack = made_up_pack();
    // A hole's card and its own section stand together.
    const std::vector<std::string> order{"week",      "long-section",    "cross-section", "plan",      "level-plan",
                                         "overview",  "intercept-table", "forecasts",     "step-outs", "drill-site-card",
                                         "strip-log", "stereonet",       "checks",        "methods"};
    std::size_t at = 0;
    for (const drawing::Sheet& sheet : pack.sheets) {
        const std::string kind = sheet.kind == "hole-section" ? "drill-site-card" : sheet.kind;
        const auto place = std::find(order.begin(), order.end(), kind);
        ASSERT_NE(place, order.end()) << sheet.kind;
        EXPECT_GE(static_cast<std::size_t>(place - order.begin()), at);
        at = static_cast<std::size_t>(place - order.begin());
    }
    EXPECT_EQ(of_kind(pack.sheets, "long-section").size(), pack.run_results.veins.size());
    EXPECT_EQ(of_kind(pack.sheets, "plan").size(), 1u);
    EXPECT_FALSE(of_kind(pack.sheets, "cross-section").empty());
    EXPECT_FALSE(of_kind(pack.sheets, "intercept-table").empty());
    for (const char* kind : {"week", "forecasts", "step-outs", "checks", "methods"})
        EXPECT_FALSE(of_kind(pack.sheets, kind).empty()) << kind;
    EXPECT_EQ(of_kind(pack.sheets, "week").size(), 1u);
}

TEST(Pack, EveryStepOutStandsOnItsLongSectionAndOnTheSheetOfNextHoles) {
    const MadeUpPack& pack = made_up_pack();
    ASSERT_FALSE(pack.run_results.step_outs.empty());
    const drawing::Sheet& sheet = *of_kind(pack.sheets, "step-outs").front();
    for (const planning::StepOut& step_out : pack.run_results.step_outs) {
        EXPECT_TRUE(says(sheet, step_out.target)) << step_out.target;
        EXPECT_TRUE(says(*of_kind(pack.sheets, "long-section")[step_out.vein_number], std::to_string(step_out.rank)));
    }
}

TEST(Pack, NoWordsRunIntoOthers) {
    const MadeUpPack& pack = made_up_pack();
    for (const drawing::Sheet& sheet : pack.sheets) {
        const std::vector<SetWords> words = words_of(sheet, pack.fonts.metrics);
        for (std::size_t i = 0; i < words.size(); ++i)
            for (std::size_t j = i + 1; j < words.size(); ++j) {
                const drawing::Box &a = words[i].box, &b = words[j].box;
                const double across = std::min(a.right, b.right) - std::max(a.left, b.left);
                const double up = std::min(a.top, b.top) - std::max(a.bottom, b.bottom);
                EXPECT_FALSE(across > 0.1 && up > 0.1)
                    << sheet.title << ": \"" << words[i].text->text << "\" over \"" << words[j].text->text << "\"";
            }
    }
}

TEST(Pack, NoWordsLeaveThePaper) {
    const MadeUpPack& pack = made_up_pack();
    for (const drawing::Sheet& sheet : pack.sheets)
        for (const SetWords& words : words_of(sheet, pack.fonts.metrics)) {
            EXPECT_GT(words.box.left, 3.0) << sheet.title << ": " << words.text->text;
            EXPECT_GT(words.box.bottom, 3.0) << sheet.title << ": " << words.text->text;
            EXPECT_LT(words.box.right, sheet.width_mm - 3.0) << sheet.title << ": " << words.text->text;
            EXPECT_LT(words.box.top, sheet.height_mm - 3.0) << sheet.title << ": " << words.text->text;
        }
}

TEST(Pack, LinksLeadSomewhere) {
    const MadeUpPack& pack = made_up_pack();
    std::set<std::string> destinations;
    for (const drawing::Sheet& sheet : pack.sheets)
        for (const drawing::Destination& destination : sheet.destinations)
            EXPECT_TRUE(destinations.insert(destination.name).second) << destination.name;
    std::size_t links = 0;
    for (const drawing::Sheet& sheet : pack.sheets)
        for (const SetWords& words : words_of(sheet, pack.fonts.metrics)) {
            if (words.text->link.empty()) continue;
            ++links;
            EXPECT_EQ(destinations.count(words.text->link), 1u) << words.text->link;
        }
    EXPECT_GT(links, pack.run_results.intercepts.met.size());
}

TEST(InterceptTable, HoldsEveryInterceptAndEveryHoleWithoutOne) {
    const MadeUpPack& pack = made_up_pack();
    const TableCounts counts = intercept_table_counts(pack.results());
    std::size_t rows = 0;
    for (const drawing::Sheet* sheet : of_kind(pack.sheets, "intercept-table"))
        for (const drawing::Destination& destination : sheet->destinations)
            rows += destination.name.rfind("row ", 0) == 0 ? 1 : 0;
    std::size_t none = 0;
    for (const veins::Vein& vein : pack.run_results.veins) none += vein.no_vein().size();
    EXPECT_EQ(counts.intercepts, pack.run_results.intercepts.met.size());
    EXPECT_EQ(counts.no_vein, none);
    EXPECT_EQ(rows, counts.intercepts + counts.no_vein);
}

TEST(LongSection, ShowsOrListsEveryHoleOfItsVein) {
    const MadeUpPack& pack = made_up_pack();
    const std::vector<const drawing::Sheet*> sheets = of_kind(pack.sheets, "long-section");
    const GradeClasses classes = grade_classes(pack.results());
    for (std::size_t vein = 0; vein < sheets.size(); ++vein) {
        const LongSectionContent content = long_section_content(pack.results(), vein, classes);
        for (const HitOnPlane& hit : content.hits) EXPECT_TRUE(says(*sheets[vein], hit.hit->hole)) << hit.hit->hole;
        for (const MissOnPlane& miss : content.misses) EXPECT_TRUE(says(*sheets[vein], miss.none->hole)) << miss.none->hole;
        for (const PierceOnPlane& pierce : content.pierces) EXPECT_TRUE(says(*sheets[vein], pierce.pierce->hole));
        for (const PierceOnPlane& pierce : content.far_pierces) EXPECT_TRUE(says(*sheets[vein], pierce.pierce->hole));
    }
}

TEST(LongSection, SaysTheCautionsOfAPlannedPosition) {
    const MadeUpPack& pack = made_up_pack();
    for (const drawing::Sheet* sheet : of_kind(pack.sheets, "long-section")) {
        EXPECT_TRUE(says(*sheet, "Working document, not for release."));
        EXPECT_TRUE(says(*sheet, "not an estimate of a mineral resource"));
        EXPECT_TRUE(says(*sheet, "planned position"));
    }
}

TEST(Pack, EveryDrillHoleIsNamedOnEachLongSection) {
    const MadeUpPack& pack = made_up_pack();
    for (const drawing::Sheet* sheet : of_kind(pack.sheets, "long-section"))
        for (const paths::Path& path : pack.run_results.paths) {
            if (!tables::is_drill_hole(path.type) || path.status == tables::HoleStatus::cancelled) continue;
            EXPECT_TRUE(says(*sheet, path.hole)) << path.hole << " on " << sheet->title;
        }
}

TEST(Pack, HolesThatSayNothingOfAVeinAreNamedWhereItWasDue) {
    const MadeUpPack& pack = made_up_pack();
    const SectionSet set = section_set(pack.results());
    std::size_t named = 0;
    for (const veins::Vein& vein : pack.run_results.veins)
        for (const veins::NoVein& none : vein.no_vein()) {
            const std::optional<std::size_t> number = section_of(set, none.point);
            const auto has_forecast = [&](const forecast::Pierce& pierce) { return pierce.hole == none.hole; };
            if (none.is_miss() || !number ||
                std::any_of(pack.run_results.forecast.pierces.begin(), pack.run_results.forecast.pierces.end(), has_forecast))
                continue;
            for (const drawing::Sheet* sheet : of_kind(pack.sheets, "cross-section"))
                if (sheet->name == set.sections[*number].name) {
                    EXPECT_TRUE(says(*sheet, none.hole)) << none.hole << " on " << sheet->name;
                    ++named;
                }
            EXPECT_TRUE(says(*of_kind(pack.sheets, "plan").front(), none.hole)) << none.hole;
        }
    EXPECT_GT(named, 0u);
}

TEST(Pack, NothingButFieldsAndFrameIsSetUnderSevenPoints) {
    const MadeUpPack& pack = made_up_pack();
    const double field = pack.style.text("field_name").size_pt, frame = pack.style.text("frame_grid").size_pt;
    for (const drawing::Sheet& sheet : pack.sheets)
        for (const SetWords& words : words_of(sheet, pack.fonts.metrics))
            EXPECT_TRUE(words.text->look.size_pt >= 7.0 || words.text->look.size_pt == field || words.text->look.size_pt == frame)
                << words.text->text;
    for (const char* role : {"table_note", "table_head", "note", "body", "caution", "detail", "scale_figure"})
        EXPECT_GE(pack.style.text(role).size_pt, 7.0) << role;
}

TEST(ForecastTable, CallsNobodyForAHoleThatEndsBeforeTheVein) {
    const MadeUpPack& pack = made_up_pack();
    const Results whole = pack.results();
    ASSERT_FALSE(whole.pierces.empty());
    std::vector<forecast::Pierce> short_ones = whole.pierces;
    for (forecast::Pierce& pierce : short_ones) pierce.chance_reached = 0.0;
    const Results results{whole.project, whole.records, whole.paths,     whole.orientations, whole.events, whole.intercepts,
                          whole.veins,   short_ones,    whole.step_outs, whole.site,         whole.solids};
    const GradeClasses classes = grade_classes(results);
    const auto calls = [&](const Results& of) {
        std::size_t count = 0;
        for (const TableRow& row : forecast_table(of, classes, section_set(of)).rows)
            for (const TableCell& cell : row.cells) count += cell.text.find("Call the geologist") != std::string::npos ? 1 : 0;
        return count;
    };
    EXPECT_EQ(calls(results), 0u);
    EXPECT_GT(calls(whole), 0u);
}

TEST(ForecastNote, FindsOtherFreePaperWhereTheCornersAreTaken) {
    const MadeUpPack& pack = made_up_pack();
    const Results results = pack.results();
    std::vector<const forecast::Pierce*> pierces;
    for (const forecast::Pierce& pierce : results.pierces)
        if (pierce.vein_number == results.pierces.front().vein_number) pierces.push_back(&pierce);
    const drawing::Box window{0.0, 0.0, 296.0, 250.0};
    std::vector<drawing::Box> taken;
    for (const double x : {0.0, 276.0})
        for (const double y : {0.0, 230.0}) taken.push_back({x, y, x + 20.0, y + 20.0});
    const GradeClasses classes = grade_classes(results);
    const std::optional<ForecastNote> note = forecast_note(pierces, results, classes, window, taken, {}, pack.tools());
    ASSERT_TRUE(note.has_value());
    for (const drawing::Box& box : taken) EXPECT_FALSE(drawing::overlap(box, note->box));
    taken.push_back(window);
    EXPECT_FALSE(forecast_note(pierces, results, classes, window, taken, {}, pack.tools()).has_value());
    for (const forecast::Pierce* pierce : pierces)
        EXPECT_NE(forecast_note_line(pierces, results).find(pierce->hole), std::string::npos);
}

TEST(Pack, EachModelledVeinIsNamedOnThePlanWhereItComesToTheGround) {
    const MadeUpPack& pack = made_up_pack();
    for (const drawing::Sheet* sheet : of_kind(pack.sheets, "plan"))
        for (const veins::Vein& vein : pack.run_results.veins) EXPECT_TRUE(says(*sheet, vein.name() + " vein")) << vein.name();
}

}  // namespace
}  // namespace selvage::sheets
