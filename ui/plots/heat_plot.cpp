// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plots/heat_plot.h"

#include "core/heat/limits.h"
#include "ui/plots/heat_axis.h"
#include "ui/plots/heat_words.h"
#include "ui/plots/painting.h"
#include "ui/plots/view_switch.h"
#include "ui/style/format.h"
#include "ui/style/range_text.h"

#include <QMenu>
#include <algorithm>
#include <cmath>
#include <limits>

namespace bw {

namespace {

constexpr double air = 1.18;     // above the highest of what is drawn

void fill(QCPGraph* graph, const std::vector<double>& time_s, const std::vector<double>& temperature_C) {
  QVector<QCPGraphData> data;
  const std::size_t points = std::min(time_s.size(), temperature_C.size());
  data.reserve(static_cast<qsizetype>(points));
  for (std::size_t i = 0; i < points; ++i) data.append({time_s[i], temperature_C[i]});
  graph->data()->set(data, true);
}

bool isThere(const std::optional<StillHandHeat>& still) { return still && still->time_s.size() > 1; }

}  // namespace

HeatPlot::HeatPlot(QWidget* parent) : PlotView(tr("Heat, front and back"), tr("Heat, °C"), parent) {
  QCustomPlot* plot = canvas();
  new Painting(plot, QStringLiteral("grid"), Painting::Clip::AxisRect, [this](QCPPainter& painter, const QRectF& box) {
    if (now() == nullptr) return;
    paintAmbient(painter, box, sheet(), project().part.ambientTemperature_C);
    if (m_view == HeatView::Work) paintPasses(painter, box, sheet(), now()->thermal.trace.passStart_s);
  });
  m_thinBack = plot->addGraph();
  m_thinFront = plot->addGraph();
  m_back = plot->addGraph();
  m_front = plot->addGraph();
  m_ghostBack = plot->addGraph();
  m_ghostFront = plot->addGraph();
  m_front->setName(tr("front"));
  m_back->setName(tr("back"));
  new Painting(plot, QStringLiteral("legend"), Painting::Clip::AxisRect,
               [this](QCPPainter& painter, const QRectF& box) { paintOver(painter, box); });
  new Painting(plot, QStringLiteral("legend"), Painting::Clip::Whole, [this](QCPPainter& painter, const QRectF& box) {
    if (!isCompact() && now() != nullptr) paintKey(painter, box, keyEntries(), tones().ink);
  });
  addSwitch();
  ready();
}

namespace {

/// The words of the switch.
enum class HeatWord { Front, Back, StillHand, Part };

}  // namespace

void HeatPlot::addSwitch() {
  const auto word = [](HeatWord which, const char* name, const QString& text, const QString& tip) {
    return ViewSwitch::Word{static_cast<int>(which), name, text, tip};
  };
  m_switch = new ViewSwitch(
      {word(HeatWord::Front, "heatAtFront", tr("Hottest front"), tr("The whole job, at the place where the front gets hottest.")),
       word(HeatWord::Back, "heatAtBack", tr("Hottest back"), tr("The whole job, at the place where the back gets hottest.")),
       word(HeatWord::StillHand, "heatStillHand", tr("The hand stops here"),
            tr("The hand stops where and when the part is hottest, and the beam burns on: how long until each limit.")),
       word(HeatWord::Part, "heatPart", tr("Over the part"), tr("A map of the whole part, moment by moment."))},
      0);
  addToHeading(m_switch);
  connect(m_switch, &ViewSwitch::chosen, this, [this](int chosen) {
    switch (static_cast<HeatWord>(chosen)) {
      case HeatWord::Front:
        return chooseSite(HeatSite::Front);
      case HeatWord::Back:
        return chooseSite(HeatSite::Back);
      case HeatWord::StillHand:
        return choose(HeatView::StillHand);
      case HeatWord::Part:
        return choose(HeatView::Part);
    }
  });
}

void HeatPlot::showSwitch() {
  const HeatWord work = site() == HeatSite::Front ? HeatWord::Front : HeatWord::Back;
  m_switch->setShown(static_cast<int>(m_view == HeatView::Work ? work : HeatWord::StillHand));
}

void HeatPlot::chooseSite(HeatSite site) {
  setSite(site);
  choose(HeatView::Work);
}

void HeatPlot::choose(HeatView view) { view == HeatView::Part ? emit partChosen() : setView(view); }

void HeatPlot::setView(HeatView view) {
  if (view == HeatView::Part || view == m_view) return;
  m_view = view;
  refreshAll();
  showSwitch();
  fit();
}

HeatSite HeatPlot::site() const {
  return m_siteByHand ? *m_siteByHand : now() != nullptr ? siteOf(now()->thermal.limits) : HeatSite::Front;
}

void HeatPlot::setSite(HeatSite site) {
  m_siteByHand = site;
  refreshAll();
  showSwitch();
}

/// While the newest assessment still lacks its still hand the one before stays, so that nothing flickers between the two.
void HeatPlot::arrived() {
  if (now() != nullptr && now()->plan != m_plan) {
    m_plan = now()->plan;
    m_siteByHand.reset();
  }
  const bool there = now() != nullptr && isThere(now()->thermal.stillHand);
  m_stillBehind = !there && moreToCome() && m_still;
  if (m_stillBehind) return;
  m_still = there ? now()->thermal.stillHand : std::nullopt;
}

QString HeatPlot::missing() const {
  if (m_view == HeatView::Work && now()->thermal.trace.time_s.size() > 1) return {};
  if (m_view == HeatView::StillHand && m_still) return {};
  if (now()->thermal.trace.time_s.size() < 2)
    return tr("No temperatures computed for this plan. Give the part's metal and thickness, and a travel speed above zero.");
  if (moreToCome()) return tr("What a hand that stops does is being worked out; it follows in a moment.");
  return tr("What a hand that stops does is not computed for this plan. The heat of the work itself stands under “Hottest front”.");
}

QString HeatPlot::workSummary() const {
  const ThermalResult& thermal = now()->thermal;
  QStringList parts;
  const auto face = [this](std::optional<Spread> Ranges::*range, double single_C) {
    const std::optional<Spread> known = now()->ranges ? (*now()->ranges).*range : std::nullopt;
    return known ? format::ends(*known, format::temperature) : format::temperature(single_C);
  };
  if (thermal.front_C) parts << tr("front %1").arg(face(&Ranges::front_C, *thermal.front_C));
  if (thermal.back_C) parts << tr("back %1").arg(face(&Ranges::back_C, *thermal.back_C));
  if (parts.isEmpty()) return {};
  if (isCompact()) return parts.join(QStringLiteral(", "));
  const bool spread = now()->ranges && now()->ranges->back_C;
  QString text = (spread ? tr("Hottest anywhere, 9 in 10 such jobs: ") : tr("Hottest anywhere: ")) + parts.join(QStringLiteral(", "));
  if (ghost() != nullptr && ghost()->thermal.back_C) return text + tr("  →  back %1").arg(format::temperature(*ghost()->thermal.back_C));
  for (const LimitResult& limit : tightestFirst(thermal.limits)) {
    if (limit.warnOnly || !limit.reached_s) continue;
    text += QStringLiteral("; ") + QString::fromStdString(limit.name) + QLatin1Char(' ') + metWords(limit);
    break;
  }
  return text +
         (place()                     ? tr(". The curves keep their own place, the hottest, not the picked one")
          : site() == HeatSite::Front ? tr(". Curves: where the front gets hottest")
                                      : tr(". Curves: where the back gets hottest")) +
         (spread ? QString() : QStringLiteral(". ") + spreadWords());
}

QString HeatPlot::stillSummary() const {
  const QString followed = format::duration(m_still->time_s.back());
  QStringList parts;
  for (const LimitResult& limit : tightestFirst(now()->thermal.limits)) {
    if (limit.warnOnly || m_stillBehind || !limit.stillHand_s) continue;
    parts << tr("%1 after %2").arg(QString::fromStdString(limit.name), format::duration(*limit.stillHand_s));
  }
  if (parts.isEmpty()) return tr("The hand stops: no limit is met within the %1 followed").arg(followed);
  if (isCompact()) return tr("Still hand: %1").arg(parts.front());
  return tr("The hand stops where the part is hottest: %1; followed for %2, bare metal").arg(parts.join(QStringLiteral(", ")), followed);
}

QString HeatPlot::summary() const { return m_view == HeatView::Work ? workSummary() : stillSummary(); }

void HeatPlot::refresh() {
  m_curves = m_view == HeatView::Work ? curvesOf(trace()) : curvesOf(*m_still);
  showSwitch();
  fill(m_front, m_curves.time_s, m_curves.front_C);
  fill(m_back, m_curves.time_s, m_curves.back_C);
  fill(m_thinFront, m_curves.time_s, m_curves.thinFront_C);
  fill(m_thinBack, m_curves.time_s, m_curves.thinBack_C);
  HeatCurves other;
  if (ghost() != nullptr && m_view == HeatView::Work) other = curvesOf(ghost()->thermal.traceAt(site()));
  fill(m_ghostFront, other.time_s, other.front_C);
  fill(m_ghostBack, other.time_s, other.back_C);
  for (QCPGraph* thin : {m_thinFront, m_thinBack}) thin->setVisible(other.isEmpty());  // two kinds of dashes would be mistaken
  const bool ofPoint = m_view == HeatView::Work && site() == HeatSite::Front;          // the frame at the hottest point
  m_inset.setFrame(ofPoint ? now()->thermal.lastFrame : FrameTrace{});
}

void HeatPlot::restyle(const Tones& tones) {
  m_front->setPen(QPen(tones.accent, 1.5));
  m_back->setPen(QPen(tones.ink, 1.5));
  m_thinFront->setPen(QPen(tones.accent, 1, Qt::DashLine));
  m_thinBack->setPen(QPen(tones.ink, 1, Qt::DashLine));
  QColor veil = tones.accent;
  veil.setAlphaF(0.12F);
  m_front->setChannelFillGraph(m_back);
  m_front->setBrush(veil);
  m_ghostFront->setPen(QPen(tones.accent, 1, Qt::DashLine));
  m_ghostBack->setPen(QPen(tones.ink, 1, Qt::DashLine));
  canvas()->yAxis->setLabel(isCompact() ? QString() : tr("temperature, °C"));
}

double HeatPlot::topOfScale() const {
  const double from = project().part.startTemperature_C, hottest = m_curves.hottest_C();
  double top = hottest;
  for (const LimitResult& limit : now()->thermal.limits) {
    if (limit.limit_C - from < 2.2 * (hottest - from)) top = std::max(top, limit.limit_C);  // a limit far above would flatten the curves
  }
  if (m_view == HeatView::StillHand) return topOfStill(top);
  if (!now()->ranges) return top;
  for (const auto& range : {now()->ranges->front_C, now()->ranges->back_C})
    if (range && std::isfinite(range->high)) top = std::max(top, range->high);
  return top;
}

/// A beam that burns on gets hotter than any limit: what is far beyond the last of them would only press them together.
double HeatPlot::topOfStill(double hottest_C) const {
  const double from = project().part.startTemperature_C;
  std::optional<double> last_C;
  for (const LimitResult& limit : now()->thermal.limits)
    if (limit.limit_C <= hottest_C) last_C = std::max(last_C.value_or(limit.limit_C), limit.limit_C);
  return last_C ? std::min(hottest_C, from + 1.5 * (*last_C - from)) : hottest_C;
}

void HeatPlot::fitAxes() {
  const auto& times = m_curves.time_s;
  m_logarithmic = m_logarithmicByHand[m_view == HeatView::StillHand].value_or(m_view == HeatView::StillHand);
  QCPAxis *x = canvas()->xAxis, *y = canvas()->yAxis;
  x->setLabel(isCompact() ? QString() : m_view == HeatView::Work ? tr("time since the first line") : tr("time since the hand stopped"));
  x->setScaleType(m_logarithmic ? QCPAxis::stLogarithmic : QCPAxis::stLinear);
  x->setRange(m_logarithmic ? m_curves.rises_s() : std::min(0.0, times.front()), times.back());
  setTicks();
  const int rows = isCompact() ? 0 : keyRows(font(), canvas()->width() - 66, keyEntries());
  canvas()->axisRect()->setMinimumMargins(isCompact() ? QMargins(0, 4, 10, 0) : QMargins(50, 8 + 18 * rows, 16, 0));
  const double low = std::min(project().part.ambientTemperature_C, project().part.startTemperature_C), top = topOfScale();
  const auto scaleTo = [&](double above) { y->setRange(std::min(0.0, low), low + (top - low) * above); };
  scaleTo(air);
  for (const auto phase : {QCPLayoutElement::upPreparation, QCPLayoutElement::upMargins, QCPLayoutElement::upLayout})
    canvas()->plotLayout()->update(phase);  // places are looked for in the box as it will be
  for (const bool insetFirst : {false, true}) {
    for (const double above : {air, 1.35, 1.55}) {  // more room where the frame in fine time finds none
      scaleTo(above);
      if (isCompact() || m_inset.isEmpty() || !layout(QRectF(canvas()->axisRect()->rect()), insetFirst).inset.isEmpty()) return;
    }
  }
  scaleTo(air);
}

void HeatPlot::setTicks() {
  const QCPRange range = canvas()->xAxis->range();
  canvas()->xAxis->setTicker(timeTicker(range.lower, range.upper, m_logarithmic, isCompact() ? 3 : 8));
}

void HeatPlot::setLogarithmic(bool logarithmic) {
  m_logarithmicByHand[m_view == HeatView::StillHand] = logarithmic;
  fit();
}

void HeatPlot::extendMenu(QMenu& menu) {
  const auto add = [&](const QString& text, bool shown, auto choice) {
    QAction* action = menu.addAction(text, this, choice);
    action->setCheckable(true);
    action->setChecked(shown);
  };
  const bool work = m_view == HeatView::Work, atFront = site() == HeatSite::Front;
  add(tr("Where the front is hottest"), work && atFront, [this] { chooseSite(HeatSite::Front); });
  add(tr("Where the back is hottest"), work && !atFront, [this] { chooseSite(HeatSite::Back); });
  add(tr("The hand stops here"), !work, [this] { choose(HeatView::StillHand); });
  add(tr("Over the part"), false, [this] { choose(HeatView::Part); });
  menu.addSeparator();
  QAction* action = menu.addAction(tr("Time axis in powers of ten"));
  action->setCheckable(true);
  action->setChecked(m_logarithmic);
  connect(action, &QAction::toggled, this, &HeatPlot::setLogarithmic);
  if (m_inset.isEmpty()) return;
  menu.addAction(tr("Save the one frame as CSV…"), this,
                 [this] { askAndExport(QStringLiteral("csv"), [this] { return frameCsv(now()->thermal.lastFrame); }); });
}

HeatSheet HeatPlot::sheet() const { return {canvas()->xAxis, canvas()->yAxis, tones(), isCompact(), m_logarithmic}; }

ClearPlaces HeatPlot::places() const {
  return {canvas()->xAxis, canvas()->yAxis, {m_front, m_back, m_thinFront, m_thinBack, m_ghostFront, m_ghostBack}};
}

std::vector<LimitMark> HeatPlot::shownLimits() const { return isBehind() ? std::vector<LimitMark>() : limitMarks(*now(), m_view, site()); }

/// Limits have their labels in full, else in brief, and the frame in fine time finds its place between them; where it finds none it may
/// come first.
HeatPlot::Layout HeatPlot::layout(const QRectF& box, bool insetFirst) const {
  const std::vector<LimitMark> limits = shownLimits();
  std::vector<double> lines_px;
  for (const LimitMark& limit : limits) lines_px.push_back(canvas()->yAxis->coordToPixel(limit.limit_C));
  Layout blank{{}, {}, places()};
  blank.free.take(ambientPlace(box, sheet(), project().part.ambientTemperature_C, font()));
  if (m_view == HeatView::Work) blank.free.take(QRectF(box.right() - spreadsWidth, box.top(), spreadsWidth, box.height()));
  const auto addLabels = [&](Layout& made, bool inFull) {
    made.labels = placeLimitLabels(box, sheet(), limits, font(), made.free, inFull);
  };
  const auto addInset = [&](Layout& made) {
    made.inset = m_inset.placeIn(box, made.free, lines_px);
    if (!made.inset.isEmpty()) made.free.take(made.inset);
    return !made.inset.isEmpty();
  };
  for (const bool inFull : {true, false}) {
    Layout made = blank;
    addLabels(made, inFull);
    if (isCompact() || m_inset.isEmpty() || addInset(made)) return made;
  }
  if (insetFirst) addInset(blank);
  addLabels(blank, true);
  return blank;
}

void HeatPlot::paintOver(QPainter& painter, const QRectF& box) const {
  m_layout = {};
  if (now() == nullptr || m_curves.isEmpty()) return;
  m_layout = layout(box);
  const bool work = m_view == HeatView::Work;
  if (work) paintSpreads(painter, box, sheet(), *now());
  paintLimits(painter, box, sheet(), shownLimits());
  for (const PlacedLabel& label : m_layout.labels)
    paintLabel(painter, label.place, Qt::AlignCenter, label.text, tones().ink, tones().sheet);
  if (isCompact()) return;
  if (work) {
    ClearPlaces& free = m_layout.free;
    const bool atFront = site() == HeatSite::Front;  // the other face's peak is not the one that is told
    paintPeak(painter, box, sheet(), m_curves.time_s, {m_curves.worseBack(), tones().ink, atFront ? tr("back, here") : tr("back"), false},
              free);
    paintPeak(painter, box, sheet(), m_curves.time_s,
              {m_curves.worseFront(), tones().accent, atFront ? tr("front") : tr("front, here"), true}, free);
  }
  if (!m_layout.inset.isEmpty()) m_inset.paint(painter, m_layout.inset, tones());
}

std::vector<KeyEntry> HeatPlot::keyEntries() const {
  if (now() == nullptr) return {};
  const bool work = m_view == HeatView::Work, thin = work && !m_curves.thinBack_C.empty() && ghost() == nullptr;
  std::vector<KeyEntry> key = {{KeyEntry::Mark::Line, tones().accent, work ? tr("front, bare") : tr("front")},
                               {KeyEntry::Mark::Line, tones().ink, work ? tr("back, bare") : tr("back")}};
  if (thin) key.push_back({KeyEntry::Mark::DashedLine, tones().quiet, tr("as the coat comes off")});
  if (ghost() != nullptr && work) key.push_back({KeyEntry::Mark::DashedLine, tones().ink, tr("after the change")});
  if (!now()->thermal.limits.empty()) key.push_back({KeyEntry::Mark::HatchedArea, tones().quiet, tr("beyond a limit")});
  if (work && now()->ranges && now()->ranges->back_C)
    key.push_back({KeyEntry::Mark::Line, tones().quiet, tr("at the edge: 9 in 10 such jobs")});
  return key;
}

QString HeatPlot::readoutAt(double time_s, double temperature_C) const {
  const QPointF at(canvas()->xAxis->coordToPixel(time_s), canvas()->yAxis->coordToPixel(temperature_C));
  if (m_layout.inset.contains(at)) return m_inset.readoutAt(m_layout.inset, at.x());
  const auto value = [time_s](const QCPGraph* graph) {
    const auto found = graph->data()->findBegin(time_s);
    return found == graph->data()->constEnd() ? std::numeric_limits<double>::quiet_NaN() : found->value;
  };
  const QString when = m_view == HeatView::Work ? tr("After %1").arg(format::duration(time_s))
                                                : tr("%1 after the hand stopped").arg(format::duration(time_s));
  QString text = tr("%1: front %2, back %3").arg(when, format::temperature(value(m_front)), format::temperature(value(m_back)));
  if (!m_curves.thinBack_C.empty())
    text += tr("; as the coat comes off %1 and %2").arg(format::temperature(value(m_thinFront)), format::temperature(value(m_thinBack)));
  return text;
}

QString HeatPlot::csv() const { return m_view == HeatView::Work ? heatCsv(trace()) : stillHandCsv(*m_still); }

}  // namespace bw
