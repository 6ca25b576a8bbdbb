// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/catch.h"

#include "tests/ui/plots/shown_panel.h"
#include "ui/style/format.h"
#include "ui/style/hatch.h"
#include "ui/style/theme.h"

#include <QImage>
#include <QLocale>
#include <QPainter>
#include <QPixmap>
#include <cmath>

using namespace bw;
using namespace bw::test;

namespace {

class German {
 public:
  German() : m_before(QLocale()) { QLocale::setDefault(QLocale(QLocale::German, QLocale::Germany)); }
  ~German() { QLocale::setDefault(m_before); }

 private:
  QLocale m_before;
};

/// W3C's contrast ratio of two opaque colours (WCAG 2.1, definition of relative luminance).
double contrast(const QColor& a, const QColor& b) {
  const auto luminance = [](const QColor& colour) {
    const auto linear = [](double c) { return c <= 0.03928 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4); };
    return 0.2126 * linear(static_cast<double>(colour.redF())) + 0.7152 * linear(static_cast<double>(colour.greenF())) +
           0.0722 * linear(static_cast<double>(colour.blueF()));
  };
  const double one = luminance(a) + 0.05, other = luminance(b) + 0.05;
  return std::max(one, other) / std::min(one, other);
}

}  // namespace

TEST_CASE("Numbers keep two digits and say their unit") {
  CHECK(plain(format::length(45e-6)) == "45 µm");
  CHECK(plain(format::length(1.24e-3)) == "1.2 mm");
  CHECK(plain(format::length(2.5)) == "2.5 m");
  CHECK(plain(format::dose(46.2e4)) == "46 J/cm²");
  CHECK(plain(format::dose(1097e3)) == "110 J/cm²");
  CHECK(plain(format::temperature(146.4)) == "146 °C");
  CHECK(plain(format::percent(0.0304)) == "3.0 %");
  CHECK(plain(format::percent(0.126)) == "13 %");
  CHECK(plain(format::percent(0)) == "0 %");
  CHECK(plain(format::rate(252)) == "4.2 min per A4");
  CHECK(plain(format::rate(40)) == "40 s per A4");
  CHECK(plain(format::money(82.4, "EUR")) == "82 EUR");
  CHECK(plain(format::power(1500)) == "1.5 kW");
}

TEST_CASE("Rounding never shows a digit too many") {
  CHECK(format::number(9.96) == "10");
  CHECK(format::number(0.0996) == "0.10");
  CHECK(format::number(999.6, 3) == "1000");
  CHECK(format::number(0) == "0");
  CHECK(format::number(-3.14159) == "-3.1");
  CHECK(format::number(std::nan("")) == "–");
}

TEST_CASE("Durations read as people say them") {
  CHECK(plain(format::duration(45)) == "45 s");
  CHECK(plain(format::duration(65 * 60)) == "65 min");
  CHECK(plain(format::duration(80 * 60 + 20)) == "80 min");
  CHECK(plain(format::duration(112 * 60)) == "1 h 50 min");
  CHECK(plain(format::duration(2 * 3600)) == "2 h");
}

TEST_CASE("Numbers follow the user's locale") {
  const German german;
  CHECK(plain(format::length(1.24e-3)) == "1,2 mm");
}

TEST_CASE("Text is readable in both palettes") {
  for (const Theme theme : {Theme::Light, Theme::Dark}) {
    const QPalette palette = paletteOf(theme);
    const Tones tones = tonesOf(palette);
    CHECK(isDark(palette) == (theme == Theme::Dark));
    CHECK(contrast(tones.ink, tones.sheet) >= 7.0);    // WCAG AAA
    CHECK(contrast(tones.quiet, tones.sheet) >= 4.5);  // WCAG AA
    CHECK(contrast(tones.quiet, tones.ground) >= 4.5);
    CHECK(contrast(tones.accent, tones.sheet) >= 3.0);  // WCAG AA for drawings
    CHECK(contrast(palette.color(QPalette::HighlightedText), palette.color(QPalette::Highlight)) >= 4.5);
  }
}

TEST_CASE("States differ in colour, word and shape") {
  const std::vector<Status> all = {Status::Meets, Status::Near, Status::Fails, Status::NotKnown};
  const QPalette palette = paletteOf(Theme::Light);
  CHECK(stateColour(Status::Meets, palette) == QColor("#0072B2"));
  CHECK(stateColour(Status::Near, palette) == QColor("#E69F00"));
  CHECK(stateColour(Status::Fails, palette) == QColor("#D55E00"));
  std::vector<QImage> shapes;
  for (const Status status : all) {
    // In one colour: the alpha alone has to tell them apart.
    const QImage shape = statePixmap(status, 32, palette, 1).toImage().convertToFormat(QImage::Format_Alpha8);
    for (const QImage& other : shapes) CHECK(shape != other);
    shapes.push_back(shape);
    CHECK_FALSE(stateWord(status).isEmpty());
  }
}

TEST_CASE("The worst state stands for all") {
  const auto row = [](Status status) { return VerdictRow{"a", "A?", status, "", ""}; };
  CHECK(worstOf({row(Status::Meets), row(Status::Near), row(Status::NotKnown)}) == Status::Near);
  CHECK(worstOf({row(Status::Meets), row(Status::NotKnown)}) == Status::NotKnown);
  CHECK(worstOf({row(Status::Near), row(Status::Fails)}) == Status::Fails);
  CHECK(worstOf({row(Status::Meets)}) == Status::Meets);
  CHECK(worstOf({}) == Status::NotKnown);
}

TEST_CASE("A layer is drawn in its own colour, else in its coating's") {
  Library library;
  Coating coating;
  coating.id = "house-blue";
  coating.colour = "#123456";
  library.coatings.push_back(coating);
  Layer layer;
  layer.coating = "house-blue";
  CHECK(layerColour(layer, library) == QColor("#123456"));
  layer.colour = "cream";
  CHECK(layerColour(layer, library) == QColor("#efe3c2"));
  layer.colour = "#0a0b0c";
  CHECK(layerColour(layer, library) == QColor("#0a0b0c"));
  layer.colour = "no such colour";
  CHECK(layerColour(layer, library) == QColor("#123456"));
}

TEST_CASE("Hatches differ") {
  std::vector<QImage> drawn;
  for (const Hatch hatch : {Hatch::None, Hatch::Diagonal, Hatch::Dots, Hatch::Waves, Hatch::Flakes, Hatch::Crossed, Hatch::Metal}) {
    QImage image(40, 40, QImage::Format_ARGB32_Premultiplied);
    image.fill(Qt::white);
    QPainter painter(&image);
    QPainterPath area;
    area.addRect(0, 0, 40, 40);
    paintHatch(painter, area, hatch, Qt::black);
    painter.end();
    for (const QImage& other : drawn) CHECK(image != other);
    drawn.push_back(image);
  }
}

TEST_CASE("Powers keep the digits that machines are sold by, and a share too small to count says so") {
  CHECK(plain(format::power(1450)) == "1.45 kW");
  CHECK(plain(format::power(1500)) == "1.5 kW");
  CHECK(plain(format::power(300)) == "300 W");
  CHECK(plain(format::power(12500)) == "12.5 kW");
  CHECK(plain(format::percent(9e-7)) == "under 0.1 %");
}
