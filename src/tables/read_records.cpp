#include "base/file.h"
#include "base/text.h"
#include "tables/analytes.h"
#include "tables/fingerprint.h"
#include "tables/make_records.h"
#include "tables/read.h"
#include "tables/table_checks.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <filesystem>
#include <map>
#include <optional>
#include <utility>

namespace selvage::tables {

namespace {

namespace fs = std::filesystem;

// Ends and beginnings of sources that are no CSV file.
constexpr std::array<const char*, 6> other_endings = {".xlsx", ".xls", ".ods", ".gpkg", ".sqlite", ".db"};
constexpr std::array<const char*, 3> database_starts = {"postgresql:", "postgres:", "pg:"};

bool is_other_source(const std::string& source) {
    const std::string folded = base::folded(source);
    const auto ends = [&](const std::string& ending) {
        return folded.size() > ending.size() && folded.compare(folded.size() - ending.size(), ending.size(), ending) == 0;
    };
    const auto starts = [&](const std::string& start) { return folded.compare(0, start.size(), start) == 0; };
    return std::any_of(other_endings.begin(), other_endings.end(), ends) ||
           std::any_of(database_starts.begin(), database_starts.end(), starts);
}

// The readings of all tables that could be read as text, by name.
class Reader {
public:
    explicit Reader(const settings::Project& project) : project_(project) {}

    base::Checked<Records> read() {
        for (const TableDescription& description : table_descriptions()) open(description);
        choose_analytes_of_tables();
        read_tables();
        for (const TableDescription& description : table_descriptions())
            if (TableReading* reading = reading_of(description.name)) close(*reading);
        spell_holes_of_findings();
        settle_origin(records_);
        records_.frame.unit = project_.length_unit;
        records_.fingerprint = fingerprint_of(project_, records_);
        return {std::move(records_), std::move(findings_)};
    }

private:
    const settings::TableEntry* entry_of(const std::string& table) const {
        for (const settings::TableEntry& entry : project_.tables)
            if (entry.table == table) return &entry;
        return nullptr;
    }

    void open(const TableDescription& description) {
        const settings::TableEntry* entry = entry_of(description.name);
        if (entry == nullptr) {
            if (description.required)
                report(table_missing, {description.name, project_.file, 0},
                       fmt::format("[tables] names no {}", description.name));
            return;
        }
        const base::Origin whole{entry->table, entry->source, 0};
        if (is_other_source(entry->source))
            return report(source_not_read_yet, whole, "only CSV files are read so far: save the table as CSV");
        const fs::path file = fs::path(project_.folder) / entry->source;
        std::error_code failed;
        if (!fs::is_regular_file(file, failed))
            return report(table_missing, whole, fmt::format("there is no file {}", file.string()));
        std::string bytes;
        try {
            bytes = base::read_file(file);
        } catch (const base::MachineError& error) {
            return report(table_unreadable, whole, error.message);
        }
        records_.hashes[entry->source] = base::sha256_hex(bytes);
        base::Checked<base::Table> table = read_csv(entry->table, entry->source, std::move(bytes), entry->encoding);
        base::append(findings_, std::move(table.findings));
        readings_.emplace(std::piecewise_construct, std::forward_as_tuple(description.name),
                          std::forward_as_tuple(project_, *entry, std::move(table.value)));
    }

    TableReading* reading_of(const std::string& table) {
        const auto found = readings_.find(table);
        return found == readings_.end() ? nullptr : &found->second;
    }

    void choose_analytes_of_tables() {
        const TableReading* assays = reading_of("assays");
        const TableReading* outcrops = reading_of("outcrops");
        const auto columns = [](const TableReading* reading) {
            return reading != nullptr && reading->bound.usable ? reading->bound.analytes : std::vector<AnalyteColumn>();
        };
        analytes_ = choose_analytes(project_, assays == nullptr ? nullptr : &assays->table, columns(assays),
                                    outcrops == nullptr ? nullptr : &outcrops->table, columns(outcrops), findings_);
        for (const AnalyteColumns& analyte : analytes_) records_.analytes.push_back(analyte.analyte);
    }

    void read_tables() {
        if (TableReading* reading = reading_of("collars")) records_.collars = read_collars(*reading);
        if (TableReading* reading = reading_of("surveys")) records_.surveys = read_surveys(*reading);
        if (TableReading* reading = reading_of("picks")) records_.picks = read_picks(*reading);
        if (TableReading* reading = reading_of("geology")) records_.geology = read_geology(*reading);
        if (TableReading* reading = reading_of("assays")) records_.assays = read_assays(*reading, analytes_);
        if (TableReading* reading = reading_of("structures")) records_.structures = read_structures(*reading);
        if (TableReading* reading = reading_of("recovery")) records_.recovery = read_recovery(*reading);
        if (TableReading* reading = reading_of("minerals")) records_.minerals = read_minerals(*reading);
        if (TableReading* reading = reading_of("drilling")) records_.drilling = read_drilling(*reading);
        if (TableReading* reading = reading_of("sizes")) records_.sizes = read_sizes(*reading);
        if (TableReading* reading = reading_of("outcrops")) records_.outcrops = read_outcrops(*reading, analytes_);
        if (TableReading* reading = reading_of("pads")) records_.pads = read_pads(*reading);
    }

    void close(TableReading& reading) {
        base::append(findings_, std::move(reading.findings));
        records_.newest_date = std::max(records_.newest_date, reading.newest_date);
    }

    // Findings name a hole as the collar table spells it, wherever they stand.
    void spell_holes_of_findings() {
        std::map<std::string, std::string> spelled;
        for (const Collar& collar : records_.collars) spelled.emplace(base::folded(collar.hole), collar.hole);
        for (base::Finding& finding : findings_) {
            const auto found = spelled.find(base::folded(finding.hole));
            if (found != spelled.end()) finding.hole = found->second;
        }
    }

    void report(const base::Check& check, base::Origin origin, std::string message) {
        findings_.push_back({&check, std::move(origin), "", std::move(message)});
    }

    const settings::Project& project_;
    std::map<std::string, TableReading> readings_;
    std::vector<AnalyteColumns> analytes_;
    Records records_;
    std::vector<base::Finding> findings_;
};

}  // namespace

base::Checked<Records> read_records(const settings::Project& project) { return Reader(project).read(); }

}  // namespace selvage::tables
