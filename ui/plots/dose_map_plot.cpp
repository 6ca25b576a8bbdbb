// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plots/dose_map_plot.h"

#include "core/dose/strikes.h"
#include "core/files/assessment_file.h"
#include "ui/fields/icon.h"
#include "ui/plots/colour_bar.h"
#include "ui/plots/dose_colours.h"
#include "ui/plots/dose_words.h"
#include "ui/plots/painting.h"
#include "ui/plots/scene_chooser.h"
#include "ui/style/format.h"
#include "ui/style/units.h"

#include <QToolButton>
#include <QtConcurrent>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace bw {

namespace {

bool hasStrokeEnd(Scene scene) { return scene == Scene::StrokeStart || scene == Scene::StrokeEnd || scene == Scene::Corner; }

double mostOf(const DoseMap& map) {
  const auto most = std::max_element(map.dose_J_m2.begin(), map.dose_J_m2.end());
  return most == map.dose_J_m2.end() ? 0 : static_cast<double>(*most);
}

double meanOf(const DoseMap& map) {
  return std::accumulate(map.dose_J_m2.begin(), map.dose_J_m2.end(), 0.0) /
         static_cast<double>(std::max<std::size_t>(1, map.dose_J_m2.size()));
}

/// Top of the colour scale, the same for all parts of the work but a still hand: burnt edges are clipped so that the rest keeps its
/// shades; the bar says so.
double topOfScale(const Assessment& assessment, const DoseMap& map, double most_J_m2) {
  const bool comparable = assessment.dose && assessment.map && assessment.scene.scene != Scene::StillHand;
  if (!comparable) return std::min(most_J_m2, 4 * meanOf(map));
  return std::min(assessment.dose->max_J_m2, std::max(assessment.dose->p95_J_m2, 2 * assessment.dose->mean_J_m2));
}

/// "×1½" of the mean.
QString shareMark(double share) {
  QString text = QStringLiteral("×");
  if (share >= 1) text += QString::number(static_cast<int>(share));
  return share == std::floor(share) ? text : text + QStringLiteral("½");
}

QString sentence(const std::string& note) {
  QString text = QString::fromStdString(note);
  if (!text.isEmpty()) text[0] = text[0].toUpper();
  return text + QLatin1Char('.');
}

}  // namespace

DoseMapPlot::DoseMapPlot(QWidget* parent)
    : MapPlot(tr("Energy on the part per pass (dose)"), tr("Dose map"), parent),
      m_map(new TiledMap(canvas()->xAxis, canvas()->yAxis)),
      m_scene(new SceneChooser),
      m_lines(new QToolButton) {
  m_lines->setObjectName(QStringLiteral("isolines"));
  m_lines->setIcon(lineIcon(QStringLiteral("isolines")));
  m_lines->setCheckable(true);
  m_lines->setChecked(true);
  m_lines->setAccessibleName(tr("Lines of equal dose"));
  m_lines->setToolTip(tr(
      "Lines of equal dose at 0.5, 1, 1.5 and 2 times the mean, smoothed over single scan lines; one too crowded to follow is left out."));
  addSwitch(View::Dose);
  addToHeading(m_lines);
  addToHeading(m_scene);
  connect(m_lines, &QToolButton::toggled, this, &DoseMapPlot::refreshAll);
  connect(&m_tracing, &QFutureWatcherBase::finished, this, &DoseMapPlot::isolinesTraced);
  connect(m_scene, &SceneChooser::chosen, this, &DoseMapPlot::sceneChosen);
  new Painting(canvas(), QStringLiteral("legend"), Painting::Clip::AxisRect,
               [this](QCPPainter& painter, const QRectF& box) { paintMarks(painter, box); });
  new Painting(canvas(), QStringLiteral("legend"), Painting::Clip::Whole, [this](QCPPainter& painter, const QRectF& box) {
    if (!isCompact()) paintColourBar(painter, box);
  });
  labelAxes();
  ready();
}

const SceneRequest& DoseMapPlot::scene() const { return m_scene->request(); }

std::shared_ptr<const DoseMap> DoseMapPlot::shown() const {
  if (now() == nullptr) return nullptr;
  if (scenery() != Scene::Endless) return now()->sceneMap;
  return now()->map != nullptr ? now()->map : now()->stillMap;
}

MapPlacing DoseMapPlot::placingOf(const DoseMap& map) const {
  if (isEndless()) return {-middle_m(), 0, true, true};
  return {map.originAcross_m, map.originAlong_m, false, scenery() == Scene::OneSwath};
}

QString DoseMapPlot::missing() const {
  const auto map = shown();
  if (map != nullptr && !map->dose_J_m2.empty()) return {};
  if (scenery() != Scene::Endless) {
    for (const std::string& note : now()->notes)
      if (note.starts_with("this view")) return sentence(note);
    if (settings() != nullptr && settings()->travelSpeed_m_s <= 0)
      return tr("The hand stands still: this part of the work needs a travel speed above zero.");
  }
  if (!now()->whyNoDose.empty()) return tr("No dose map: %1.").arg(QString::fromStdString(now()->whyNoDose));
  return tr("No dose map for these settings. Set a travel speed and a step-over above zero.");
}

QString DoseMapPlot::summary() const {
  if (scenery() != Scene::Endless) return sceneSummary();
  if (!now()->dose || !isEndless()) return tr("Hand standing still: the dose of one frame");
  const DoseResult& dose = *now()->dose;
  QString text = tr("Mean %1, %2").arg(format::dose(dose.mean_J_m2), missedWords(dose.missedFraction));
  if (isCompact()) return text;
  if (ghost() != nullptr && ghost()->dose) {
    return text + tr("  →  mean %1, %2").arg(format::dose(ghost()->dose->mean_J_m2), missedWords(ghost()->dose->missedFraction));
  }
  if (dose.missedFraction >= leastMissed) text += tr(" (below half the mean)");
  if (const QString words = outOfStepWords(dose); !words.isEmpty()) text += QStringLiteral("; ") + words;
  return text + tr(". Single estimate, spread not computed");
}

/// When a hand that stands still is through the coat.
QString DoseMapPlot::throughWords() const {
  if (!now()->removal.stillHand) return {};
  const StillHand& still = *now()->removal.stillHand;
  if (!still.first_s) return tr("; not through in %1").arg(format::duration(still.followed_s));
  return still.most_s
             ? tr("; through after %1, 95 % of the frame after %2").arg(format::duration(*still.first_s), format::duration(*still.most_s))
             : tr("; through first after %1").arg(format::duration(*still.first_s));
}

QString DoseMapPlot::sceneSummary() const {
  const QString most = tr("at most %1").arg(format::dose(m_most_J_m2));
  if (scenery() == Scene::StillHand)
    return tr("Hand standing still for %1: %2").arg(format::duration(now()->scene.still_s), most) + throughWords();
  if (scenery() == Scene::OneSwath) return tr("One swath without its neighbours: %1").arg(most);
  QString text = scenery() == Scene::StrokeStart ? tr("Where strokes begin: %1").arg(most)
                 : scenery() == Scene::StrokeEnd ? tr("Where strokes end: %1").arg(most)
                                                 : tr("Where the first swath begins: %1").arg(most);
  if (now()->dose) text += tr("; mean of the area %1").arg(format::dose(now()->dose->mean_J_m2));
  const Plan* plan = findPlan(project(), now()->plan);
  if (plan != nullptr && plan->hand && plan->hand->speedWander.value_or(0) > 0)
    text += tr("; the hand's speed wanders by %1").arg(format::percent(*plan->hand->speedWander));
  return text;
}

void DoseMapPlot::refresh() {
  const auto map = shown();
  m_most_J_m2 = isEndless() && now()->dose ? now()->dose->max_J_m2 : mostOf(*map);
  m_map->setMap(map, placingOf(*map), isEndless() && now()->dose ? now()->dose->mean_J_m2 / 2 : 0);
  const double top = topOfScale(*now(), *map, m_most_J_m2) / J_m2_per_J_cm2;
  m_map->setDataRange(QCPRange(0, top > 0 ? top : 1));
  labelAxes();
  m_lines->setEnabled(scenery() != Scene::StillHand);  // it has no mean to compare with
  traceIsolines();
}

bool DoseMapPlot::showsIsolines() const { return !isCompact() && m_lines->isChecked() && m_traced != nullptr && m_traced == shown(); }

/// In the background, once for each map, and only where they are seen.
void DoseMapPlot::traceIsolines() {
  const auto map = shown();
  if (map == m_traced || isCompact() || !m_lines->isChecked()) return;
  m_traced = map;
  m_isolines.clear();
  if (!now()->dose || now()->dose->mean_J_m2 <= 0 || scenery() == Scene::StillHand) return m_tracing.setFuture({});
  m_tracing.setFuture(QtConcurrent::run(
      [map, placing = placingOf(*map), mean_J_m2 = now()->dose->mean_J_m2] { return isolinesOf(*map, placing, mean_J_m2); }));
}

void DoseMapPlot::isolinesTraced() {
  if (m_tracing.future().resultCount() == 0) return;
  m_isolines = m_tracing.result();
  replotSoon();
}

void DoseMapPlot::labelAxes() {
  const bool fromStart = scenery() == Scene::StrokeStart || scenery() == Scene::Corner;
  canvas()->xAxis->setLabel(scenery() == Scene::Corner ? tr("across the first swath, mm") : tr("across the swath, mm"));
  canvas()->yAxis->setLabel(fromStart                       ? tr("along the travel from its start, mm")
                            : scenery() == Scene::StrokeEnd ? tr("along the travel from its end, mm")
                                                            : tr("along the travel, mm"));
}

void DoseMapPlot::restyle(const Tones& tones) {
  m_map->setGradient(doseGradient(tones.sheet.lightness() < 128));
  m_map->setHatchColour(tones.ink);
  canvas()->axisRect()->setBackground(QBrush(blend(tones.sheet, tones.line, 0.4)));
  setMargins();
}

std::optional<MapExtent> DoseMapPlot::extent() const {
  const auto map = shown();
  if (map == nullptr) return std::nullopt;
  return MapExtent{map->across_m(), map->along_m(), placingOf(*map)};
}

QString DoseMapPlot::readoutAt(double across_mm, double along_mm) const {
  const QString where = whereWords(across_mm, along_mm);
  const std::optional<PickedPlace> at = placeOf(across_mm, along_mm);
  if (!at) return where + tr("outside this view");
  const auto map = shown();
  const int column = std::min(map->columns - 1, static_cast<int>(at->across_m / map->cellAcross_m));
  const int row = std::min(map->rows - 1, static_cast<int>(at->along_m / map->cellAlong_m));
  const double dose = static_cast<double>(map->at(column, row));
  QString text = where + format::dose(dose);
  if (scenery() != Scene::StillHand && now()->dose && now()->dose->mean_J_m2 > 0)
    text += tr(", %1 × the mean").arg(format::number(dose / now()->dose->mean_J_m2));
  return isEndless() ? text + strikesText(*at) : text;
}

QString DoseMapPlot::strikesText(const PickedPlace& at) const {
  if (now()->rows == nullptr) return {};
  const RepeatCell cell{now()->map->across_m(), now()->map->along_m()};
  const auto strikes =
      strikesAt(*now()->rows, cell, now()->beam.spotDiameter_m / 2, {at.across_m, at.along_m}, now()->beam.pulseEnergy_J.value_or(0));
  return strikes ? QStringLiteral("; ") + strikesWords(*strikes, now()->beam.pulseEnergy_J.has_value()) : QString();
}

QString DoseMapPlot::csv() const { return QString::fromStdString(mapCsv(*shown())); }

void DoseMapPlot::paintMarks(QPainter& painter, const QRectF& box) const {
  if (shown() == nullptr) return;
  paintIsolines(painter);
  if (isEndless()) paintCell(painter, now()->map->across_m(), now()->map->along_m(), Qt::SolidLine);
  if (isEndless() && ghost() != nullptr && ghost()->map != nullptr)
    paintCell(painter, ghost()->map->across_m(), ghost()->map->along_m(), Qt::DashLine);
  if (hasStrokeEnd(scenery())) paintStrokeEnd(painter, box);
  paintSizes(painter, box, now()->map != nullptr && scenery() != Scene::StillHand);
  paintPlace(painter);
}

/// Not where its runs would lie closer together than a screen can show.
bool DoseMapPlot::canBeFollowed(const Isoline& line) const {
  constexpr double leastApart_px = 8;
  return !line.pieces.isEmpty() && line.apart_mm * pixelsPerMm() >= leastApart_px;
}

/// Thin lines; that of the mean a little stronger.
void DoseMapPlot::paintIsolines(QPainter& painter) const {
  if (!showsIsolines()) return;
  QColor halo = tones().sheet;
  halo.setAlphaF(0.4F);
  const QTransform toPixels = m_map->toPixels();
  for (const QPointF& tile : m_map->tileOrigins()) {
    painter.save();
    painter.setTransform(QTransform::fromTranslate(tile.x(), tile.y()) * toPixels, true);
    for (const Isoline& line : m_isolines) {
      if (!canBeFollowed(line)) continue;
      for (QPen pen : {QPen(halo, 3), QPen(tones().ink, line.share == 1 ? 1.4 : 0.8)}) {
        pen.setCosmetic(true);
        painter.setPen(pen);
        painter.drawLines(line.pieces);
      }
    }
    painter.restore();
  }
}

/// A line across where the hand starts or stops.
void DoseMapPlot::paintStrokeEnd(QPainter& painter, const QRectF& box) const {
  const double y = canvas()->yAxis->coordToPixel(0);
  QColor halo = tones().sheet;
  halo.setAlphaF(0.75F);
  for (const QPen& pen : {QPen(halo, 3), QPen(tones().ink, 1, Qt::DashLine)}) {
    painter.setPen(pen);
    painter.drawLine(QPointF(box.left(), y), QPointF(box.right(), y));
  }
  if (isCompact()) return;
  const QString text = scenery() == Scene::StrokeEnd ? tr("the hand stops here") : tr("the hand starts here");
  paintLabel(painter, QRectF(box.center().x() - 80, y + 3, 160, 18), Qt::AlignHCenter | Qt::AlignTop, text, tones().ink, tones().sheet);
}

void DoseMapPlot::paintColourBar(QPainter& painter, const QRectF& box) const {
  if (now() == nullptr || shown() == nullptr) return;
  const double most = m_most_J_m2 / J_m2_per_J_cm2;
  ColourBar bar{m_map->gradient(), m_map->dataRange(), QStringLiteral("J/cm²")};
  if (most > bar.range.upper * 1.001) bar.most = most;
  bar.paint(painter, box, tones());
  if (showsIsolines()) paintIsolineMarks(painter, ColourBar::place(box));
}

/// Where the lines stand in the scale, as shares of the mean.
void DoseMapPlot::paintIsolineMarks(QPainter& painter, const QRectF& bar) const {
  const double mean = now()->dose->mean_J_m2 / J_m2_per_J_cm2;
  for (const Isoline& line : m_isolines) {
    const double y = bar.bottom() - bar.height() * line.share * mean / m_map->dataRange().upper;
    if (!canBeFollowed(line) || y < bar.top()) continue;
    painter.setPen(QPen(tones().ink, line.share == 1 ? 1.4 : 0.8));
    painter.drawLine(QPointF(bar.left() - 4, y), QPointF(bar.right(), y));
    painter.drawText(QRectF(bar.left() - 36, y - 8, 30, 16), Qt::AlignRight | Qt::AlignVCenter, shareMark(line.share));
  }
}

}  // namespace bw
