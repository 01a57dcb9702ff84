#include "pdf/haru.h"

#include "base/file.h"

#include <fmt/format.h>

#include <utility>

namespace selvage::pdf {

namespace {

// The object number of an indirect object, without the bits that libharu keeps beside it.
constexpr HPDF_UINT32 object_number_mask = 0x00ffffffU;

// libharu keeps the first error itself.
void ignore_error(HPDF_STATUS, HPDF_STATUS, void*) {}

HPDF_STATUS write_own_text(HPDF_Dict object, HPDF_Stream stream) {
    return HPDF_Stream_WriteStr(stream, static_cast<const char*>(object->attr));
}

}  // namespace

Haru::Haru() : document_(HPDF_New(ignore_error, nullptr)) {
    if (document_ == nullptr) throw base::MachineError{"no memory for a PDF document"};
}

Haru::~Haru() { HPDF_Free(document_); }

const char* Haru::keep(std::string text) {
    texts_.push_back(std::move(text));
    return texts_.back().c_str();
}

HPDF_Dict Haru::object(std::string text) {
    HPDF_Dict dictionary = HPDF_Dict_New(document_->mmgr);
    if (dictionary == nullptr) throw base::MachineError{"no memory for a PDF object"};
    HPDF_Xref_Add(document_->xref, dictionary);
    dictionary->attr = const_cast<char*>(keep(std::move(text) + "\n"));
    dictionary->write_fn = write_own_text;
    return dictionary;
}

HPDF_Dict Haru::stream(const std::string& content, std::string entries) {
    HPDF_Dict dictionary = HPDF_DictStream_New(document_->mmgr, document_->xref);
    if (dictionary == nullptr) throw base::MachineError{"no memory for a PDF stream"};
    dictionary->attr = const_cast<char*>(keep(std::move(entries) + "\n"));
    dictionary->write_fn = write_own_text;
    dictionary->filter = HPDF_STREAM_FILTER_FLATE_DECODE;
    HPDF_Stream_Write(dictionary->stream, reinterpret_cast<const HPDF_BYTE*>(content.data()),
                      static_cast<HPDF_UINT>(content.size()));
    return dictionary;
}

std::string Haru::reference(HPDF_Dict object) { return fmt::format("{} 0 R", object->header.obj_id & object_number_mask); }

void Haru::check(const std::string& doing) const {
    const HPDF_STATUS error = HPDF_GetError(document_);
    if (error == HPDF_OK) return;
    throw base::MachineError{
        fmt::format("the PDF library failed (code 0x{:04x}, {}) {}", error, HPDF_GetErrorDetail(document_), doing)};
}

std::string Haru::bytes() {
    check("drawing the sheets");
    document_->pdf_version = HPDF_VER_17;  // last: other calls move it
    HPDF_SaveToStream(document_);
    check("saving the document");
    HPDF_ResetStream(document_);
    std::string all(HPDF_GetStreamSize(document_), '\0');
    HPDF_UINT32 size = static_cast<HPDF_UINT32>(all.size());
    HPDF_ReadFromStream(document_, reinterpret_cast<HPDF_BYTE*>(all.data()), &size);
    if (size != all.size() || all.empty()) throw base::MachineError{"the PDF library gave back less than it wrote"};
    return all;
}

std::string text_string(std::string_view utf8) {
    std::string out = "<FEFF";
    for (std::size_t at = 0; at < utf8.size();) {
        const unsigned lead = static_cast<unsigned char>(utf8[at]);
        const std::size_t length = lead < 0x80U ? 1 : lead < 0xe0U ? 2 : lead < 0xf0U ? 3 : 4;
        unsigned code = length == 1 ? lead : lead & (0xffU >> (length + 1));
        for (std::size_t i = 1; i < length && at + i < utf8.size(); ++i)
            code = (code << 6U) | (static_cast<unsigned char>(utf8[at + i]) & 0x3fU);
        at += length;
        if (code > 0xffffU)
            out += fmt::format("{:04X}{:04X}", 0xd800U + ((code - 0x10000U) >> 10U), 0xdc00U + ((code - 0x10000U) & 0x3ffU));
        else
            out += fmt::format("{:04X}", code);
    }
    return out + ">";
}

}  // namespace selvage::pdf
