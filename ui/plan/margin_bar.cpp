// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plan/margin_bar.h"

#include "ui/plots/heat_words.h"
#include "ui/style/format.h"
#include "ui/style/hatch.h"
#include "ui/style/theme.h"

#include <QPainter>
#include <QPainterPath>

#include <algorithm>
#include <cmath>

namespace bw {

namespace {

constexpr int nameHeight = 16;
constexpr int scaleHeight = 18;
constexpr double room = 1.15;  // beyond the farthest of what is drawn

MarginLine lineOf(const LimitResult& limit, const Assessment& assessment, double start_C, bool moreToCome) {
  const QString name = QString::fromStdString(limit.name), where = QString::fromStdString(limit.where);
  MarginLine made;
  made.name = name.contains(where) ? name : MarginBar::tr("%1, %2").arg(name, where);
  made.source = QString::fromStdString(limit.source);
  made.start_C = start_C;
  made.predicted_C = limit.predicted_C;
  made.spread = spreadOf(limit, assessment);
  made.limit_C = limit.limit_C;
  made.limitUpTo_C = limit.limitUpTo_C;
  made.warnOnly = limit.warnOnly;
  QStringList parts{predictedWords(limit, assessment), limitWords(limit)};
  for (const QString& part : {metWords(limit), stopWords(limit, assessment.thermal)})
    if (!part.isEmpty()) parts << part;
  if (limit.warnOnly) parts << MarginBar::tr("warning only");
  made.words = parts.join(QStringLiteral("; "));
  if (!made.spread) made.words += moreToCome ? MarginBar::tr(". Spread follows") : MarginBar::tr(". Single estimate, spread not computed");
  return made;
}

}  // namespace

std::vector<MarginLine> marginsOf(const Assessment& assessment, const Project& project, bool moreToCome) {
  std::vector<MarginLine> made;
  for (const LimitResult& limit : tightestFirst(assessment.thermal.limits))
    made.push_back(lineOf(limit, assessment, project.part.startTemperature_C, moreToCome));
  return made;
}

MarginBar::MarginBar(QWidget* parent) : QWidget(parent) {
  QSizePolicy policy(QSizePolicy::Preferred, QSizePolicy::Fixed);
  policy.setHeightForWidth(true);
  setSizePolicy(policy);
  setFont(smallFont(font()));
}

void MarginBar::setLine(MarginLine line) {
  m_line = std::move(line);
  setAccessibleName(m_line.name + QStringLiteral(": ") + m_line.words);
  setAccessibleDescription(tr("Source of the limit: %1").arg(m_line.source));
  setToolTip(tr("Limit from: %1. The bar runs from the part's %2 at the start to beyond the limit. Thin line: 9 in 10 such jobs. Tick: "
                "most likely. Post: limit, hatched beyond it; lighter where some of it bears more. A hand may stop so long where and when "
                "the part is hottest until the limit is met.")
                 .arg(m_line.source, format::temperature(m_line.start_C)));
  updateGeometry();
  update();
}

int MarginBar::textHeight(int width) const {
  return fontMetrics().boundingRect(QRect(0, 0, std::max(60, width), 1000), Qt::TextWordWrap, m_line.words).height();
}

int MarginBar::heightForWidth(int width) const { return nameHeight + textHeight(width) + scaleHeight + nameHeight; }
QSize MarginBar::sizeHint() const { return {200, heightForWidth(240)}; }

double MarginBar::scaleEnd_C() const {
  double most = std::max({m_line.predicted_C, m_line.limit_C, m_line.limitUpTo_C});
  if (m_line.spread) {
    for (const double value : {m_line.spread->middle, m_line.spread->high})
      if (std::isfinite(value)) most = std::max(most, value);
  }
  return m_line.start_C + std::max(1.0, (most - m_line.start_C) * room);
}

double MarginBar::xOf(double temperature_C) const {
  const double end = width() - 1.0;
  if (!std::isfinite(temperature_C)) return end;
  return std::clamp(1 + (end - 1) * (temperature_C - m_line.start_C) / (scaleEnd_C() - m_line.start_C), 1.0, end);
}

void MarginBar::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setOpacity(isEnabled() ? 1 : 0.5);
  const Tones tones = tonesOf(palette());
  painter.setPen(tones.ink);
  painter.setFont(smallFont(font(), !m_line.warnOnly));
  painter.drawText(QRect(0, 0, width(), nameHeight), Qt::AlignLeft | Qt::AlignVCenter,
                   painter.fontMetrics().elidedText(m_line.name, Qt::ElideRight, width()));
  painter.setFont(smallFont(font()));
  const int words = textHeight(width());
  painter.drawText(QRect(0, nameHeight, width(), words), Qt::TextWordWrap, m_line.words);
  painter.setPen(tones.quiet);
  painter.drawText(QRect(0, height() - nameHeight, width(), nameHeight), Qt::AlignLeft | Qt::AlignVCenter,
                   fontMetrics().elidedText(m_line.source, Qt::ElideRight, width()));
  const double top = nameHeight + words + 3.0, bottom = top + scaleHeight - 6;
  painter.setPen(QPen(tones.line, 1));
  painter.drawLine(QPointF(0, bottom), QPointF(width(), bottom));
  paintLimit(painter, top, bottom);
  paintPredicted(painter, top, bottom);
}

void MarginBar::paintLimit(QPainter& painter, double top, double bottom) const {
  const Tones tones = tonesOf(palette());
  const double post = xOf(m_line.limit_C), end = width() - 1.0;
  const double certain = m_line.limitUpTo_C > m_line.limit_C ? xOf(m_line.limitUpTo_C) : post;  // beyond it nothing of the kind bears
  const auto hatched = [&](double from, double to, double share) {
    QPainterPath area;
    area.addRect(QRectF(QPointF(from, top), QPointF(to, bottom)));
    paintHatch(painter, area, Hatch::Diagonal, blend(tones.sheet, tones.quiet, share));
  };
  if (certain > post) painter.fillRect(QRectF(QPointF(post, top), QPointF(certain, bottom)), blend(tones.sheet, tones.line, 0.45));
  hatched(certain, end, 0.7);
  painter.setPen(QPen(m_line.warnOnly ? tones.quiet : tones.ink, m_line.warnOnly ? 1.5 : 2, m_line.warnOnly ? Qt::DotLine : Qt::SolidLine));
  painter.drawLine(QPointF(post, top - 2), QPointF(post, bottom + 1));
}

void MarginBar::paintPredicted(QPainter& painter, double top, double bottom) const {
  const Tones tones = tonesOf(palette());
  const double middle = (top + bottom) / 2;
  if (m_line.spread) {
    const double left = xOf(m_line.spread->low), right = xOf(m_line.spread->high);
    painter.setPen(QPen(tones.accent, 2));
    painter.drawLine(QPointF(left, middle), QPointF(right, middle));
    for (const double x : {left, right}) painter.drawLine(QPointF(x, middle - 3), QPointF(x, middle + 3));
  }
  const double likely = xOf(m_line.spread && std::isfinite(m_line.spread->middle) ? m_line.spread->middle : m_line.predicted_C);
  painter.setPen(QPen(tones.accent, 4));
  painter.drawLine(QPointF(likely, top + 1), QPointF(likely, bottom - 1));
}

}  // namespace bw
