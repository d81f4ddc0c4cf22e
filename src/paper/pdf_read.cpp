#include "paper/pdf_read.hpp"

// qpdf 11: its own pointers are std::shared_ptr.
#define POINTERHOLDER_TRANSITION 4

#include <qpdf/QPDF.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>
#include <qpdf/QPDFPageObjectHelper.hh>
#include <qpdf/QUtil.hh>

#include <map>
#include <stdexcept>

namespace tuck::faces::pdf {
namespace {

constexpr double mm_per_point = 25.4 / 72;

std::string plain_name(std::string name) {
    if (!name.empty() && name[0] == '/')
        name.erase(0, 1);
    if (name.size() > 7 && name[6] == '+')
        name.erase(0, 7);
    // libharu names the style once more: "LiberationSansNarrow-Bold,Bold".
    return name.substr(0, name.find(','));
}

/// Follows the operators of one content stream.
class Reader : public QPDFObjectHandle::ParserCallbacks {
public:
    Reader(FoundPage& page, std::map<std::string, std::string> fonts)
        : page_(page), fonts_(std::move(fonts)) {}

    void handleObject(QPDFObjectHandle object) override {
        if (!object.isOperator()) {
            operands_.push_back(object);
            return;
        }
        obey(object.getOperatorValue());
        operands_.clear();
    }
    void handleEOF() override {}

private:
    double number(std::size_t i) {
        return i < operands_.size() && operands_[i].isNumber() ? operands_[i].getNumericValue() : 0;
    }

    void obey(const std::string& op) {
        if (op == "w")
            line_mm_ = number(0) * mm_per_point;
        else if (op == "g")
            grey_ = number(0);
        else if (op == "m")
            path_ = {{number(0), number(1)}};
        else if (op == "l")
            path_.emplace_back(number(0), number(1));
        else if (op == "S")
            stroke();
        else if (op == "BT")
            x_ = y_ = 0, begun_ = false;
        else if (op == "Tf" && !operands_.empty()) {
            font_ = fonts_[operands_[0].getName()];
            size_ = number(1);
        } else if (op == "Td") {
            x_ += number(0);
            y_ += number(1);
        } else if (op == "Tj" && !operands_.empty() && operands_[0].isString())
            show(QUtil::utf16_to_utf8("\xFE\xFF" + operands_[0].getStringValue()));
    }

    /// Words in a stand-in font go on where the last ones ended: one text.
    void show(const std::string& utf8) {
        if (begun_)
            page_.texts.back().utf8 += utf8;
        else
            page_.texts.push_back({x_ * mm_per_point, page_.height_mm - y_ * mm_per_point,
                                   size_ * mm_per_point, grey_, font_, utf8});
        begun_ = true;
    }

    void stroke() {
        if (path_.size() == 2)
            page_.lines.push_back(
                {path_[0].first * mm_per_point, page_.height_mm - path_[0].second * mm_per_point,
                 path_[1].first * mm_per_point, page_.height_mm - path_[1].second * mm_per_point, line_mm_});
        path_.clear();
    }

    FoundPage& page_;
    std::map<std::string, std::string> fonts_;
    std::vector<QPDFObjectHandle> operands_;
    std::vector<std::pair<double, double>> path_;
    std::string font_;
    double line_mm_ = mm_per_point, grey_ = 0, x_ = 0, y_ = 0, size_ = 0;
    bool begun_ = false;
};

FoundFont font_of(QPDFObjectHandle font) {
    const std::string name = font.getKey("/BaseFont").getName();
    FoundFont found;
    found.name = plain_name(name);
    found.subset = name.size() > 8 && name[7] == '+';
    QPDFObjectHandle descendants = font.getKey("/DescendantFonts");
    const QPDFObjectHandle owner =
        descendants.isArray() && descendants.getArrayNItems() > 0 ? descendants.getArrayItem(0) : font;
    QPDFObjectHandle descriptor = QPDFObjectHandle(owner).getKey("/FontDescriptor");
    found.embedded = descriptor.isDictionary() && descriptor.hasKey("/FontFile2");
    return found;
}

FoundPage page_of(QPDFPageObjectHelper helper) {
    FoundPage page;
    QPDFObjectHandle box = helper.getMediaBox();
    page.width_mm = box.getArrayItem(2).getNumericValue() * mm_per_point;
    page.height_mm = box.getArrayItem(3).getNumericValue() * mm_per_point;
    std::map<std::string, std::string> names;
    QPDFObjectHandle fonts = helper.getAttribute("/Resources", false).getKey("/Font");
    if (fonts.isDictionary())
        for (const std::string& key : fonts.getKeys()) {
            page.fonts.push_back(font_of(fonts.getKey(key)));
            names[key] = page.fonts.back().name;
        }
    Reader reader(page, names);
    helper.parseContents(&reader);
    return page;
}

} // namespace

Found read(const std::string& bytes) {
    try {
        QPDF file;
        file.setSuppressWarnings(true);
        file.setAttemptRecovery(false);
        file.processMemoryFile("the PDF", bytes.data(), bytes.size());
        Found found;
        for (QPDFPageObjectHelper& page : QPDFPageDocumentHelper(file).getAllPages())
            found.pages.push_back(page_of(page));
        QPDFObjectHandle title = file.getTrailer().getKey("/Info").getKey("/Title");
        if (title.isString())
            found.title = title.getUTF8Value();
        QPDFObjectHandle scaling = file.getRoot().getKey("/ViewerPreferences").getKey("/PrintScaling");
        found.unscaled = scaling.isName() && scaling.getName() == "/None";
        return found;
    } catch (const std::exception& error) {
        throw std::runtime_error(std::string("PDF: cannot be read back: ") + error.what());
    }
}

} // namespace tuck::faces::pdf
