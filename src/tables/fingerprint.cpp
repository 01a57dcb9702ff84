#include "tables/fingerprint.h"

#include "base/file.h"

#include <array>
#include <cstdint>
#include <cstring>
#include <optional>
#include <string_view>

namespace selvage::tables {

namespace {

constexpr std::size_t block = 1U << 16U;  // bytes hashed at a time; part of what the fingerprint is

// Values as bytes: numbers as the eight bytes of the double, low end first, texts with their length, so that no two records give
// the same bytes. They are hashed block by block, each block after the hash of those before it.
class Bytes {
public:
    template <typename... Values>
    void add(const Values&... values) {
        (put(values), ...);
    }
    std::string hash() const { return base::sha256_hex(text_); }

private:
    void end_record() {
        if (text_.size() >= block) text_ = hash();
    }
    void put(double value) {
        const double plain = value == 0.0 ? 0.0 : value;  // no minus zero
        std::uint64_t bits = 0;
        std::memcpy(&bits, &plain, sizeof bits);
        std::array<char, 8> low_first{};
        for (unsigned i = 0; i < 8; ++i) low_first[i] = static_cast<char>((bits >> (8 * i)) & 0xffU);
        text_.append(low_first.data(), low_first.size());
    }
    void put(int value) { put(static_cast<double>(value)); }
    void put(bool value) { text_ += value ? '\1' : '\0'; }
    void put(std::string_view value) {
        put(static_cast<double>(value.size()));
        text_ += value;
    }
    void put(const std::string& value) { put(std::string_view(value)); }
    void put(const char* value) { put(std::string_view(value)); }
    void put(base::Angle value) { put(value.degrees()); }
    void put(base::Azimuth value) { put(value.degrees()); }
    void put(base::Dip value) { put(value.degrees()); }
    void put(const base::Attitude& value) { add(value.dip, value.dip_direction); }
    void put(const Eigen::Vector3d& value) { add(value.x(), value.y(), value.z()); }
    void put(const Target& value) { add(value.name, value.vein, value.point, value.radius); }
    void put(const AssayValue& value) { add(value.value, value.below_detection, value.over_limit); }
    void put(const Analyte& value) { add(value.name, value.unit); }
    void put(HoleStatus value) { put(static_cast<int>(value)); }
    void put(HoleType value) { put(static_cast<int>(value)); }
    void put(PickState value) { put(static_cast<int>(value)); }
    void put(SampleType value) { put(static_cast<int>(value)); }
    void put(SampleStatus value) { put(static_cast<int>(value)); }
    template <typename T>
    void put(const std::optional<T>& value) {
        put(value.has_value());
        if (value) put(*value);
    }
    template <typename T>
    void put(const std::vector<T>& values) {
        put(static_cast<double>(values.size()));
        for (const T& value : values) {
            put(value);
            end_record();
        }
    }

    void put(const Collar& c) {
        add(c.hole, c.position, c.depth, c.azimuth, c.dip, c.status, c.type, c.core_size, c.campaign, c.date, c.date_started,
            c.date_finished, c.collar_method, c.planned_as, c.parent, c.kickoff, c.collar_sd, c.elevation_sd, c.drilled,
            c.target);
    }
    void put(const Survey& s) {
        add(s.hole, s.depth, s.azimuth, s.dip, s.method, s.run, s.date, s.magnetic_field, s.magnetic, s.use);
    }
    void put(const Pick& p) {
        add(p.hole, p.from, p.to, p.vein, p.state, p.certainty, p.zone, p.by, p.date, p.comment, p.from_sd, p.to_sd);
    }
    void put(const GeologyInterval& g) { add(g.hole, g.from, g.to, g.rock, g.vein, g.certainty); }
    void put(const Assay& a) {
        const Dispatch& d = *a.dispatch;
        add(a.hole, a.from, a.to, a.sample, d.certificate, d.laboratory, d.method, d.dispatched, d.received, a.type, a.status,
            a.density, a.values);
    }
    void put(const Structure& s) {
        add(s.hole, s.depth, s.kind, s.alpha, s.beta, s.gamma, s.attitude, s.quality, s.vein, s.line);
    }
    void put(const Recovery& r) { add(r.hole, r.from, r.to, r.recovery, r.rqd); }
    void put(const MineralInterval& m) { add(m.hole, m.from, m.to, m.mineral, m.strength); }
    void put(const DrillingEvent& d) { add(d.hole, d.depth, d.to, d.kind, d.note); }
    void put(const SizeInterval& s) { add(s.hole, s.from, s.to, s.size, s.casing, s.steered); }
    void put(const Outcrop& o) { add(o.position, o.vein, o.attitude, o.thickness, o.trench, o.values); }
    void put(const Pad& p) {
        add(p.pad, p.status, p.position, p.dip_min, p.dip_max, p.azimuth_min, p.azimuth_max, p.length_max, p.radius, p.move_cost);
    }

    std::string text_;
};

}  // namespace

std::string fingerprint_of(const settings::Project& project, const Records& records) {
    Bytes bytes;
    bytes.add(project.values, records.frame.origin, records.collars, records.surveys, records.picks, records.geology,
              records.analytes, records.assays, records.structures, records.recovery, records.minerals, records.drilling,
              records.sizes, records.outcrops, records.pads);
    return bytes.hash();
}

}  // namespace selvage::tables
