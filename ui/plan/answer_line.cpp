// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plan/answer_line.h"

#include "core/heat/limits.h"
#include "core/job/hazards.h"
#include "ui/plan/working.h"
#include "ui/plots/heat_words.h"
#include "ui/style/format.h"
#include "ui/style/range_text.h"
#include "ui/style/theme.h"

#include <QLocale>
#include <QPainter>
#include <algorithm>
#include <cmath>
#include <string_view>
#include <utility>

namespace bw {

namespace {

constexpr int answerHeight = 56;
constexpr int answerShape_px = 28;
constexpr const char* beforeBeamKey = "before_beam";
constexpr int leastSentence = 560;  // px; key numbers give way before the sentence does

QFont sized(QFont font, int size_px, bool heavy = false) {
  font.setPixelSize(size_px);
  font.setBold(heavy);
  return font;
}

}  // namespace

KeyNumber::KeyNumber(const QString& key, QWidget* parent) : QAbstractButton(parent) {
  setObjectName(key);
  setAttribute(Qt::WA_Hover);
  connect(this, &QAbstractButton::clicked, this, [this] {
    if (m_working) openWorking(*m_working, this);
  });
}

void KeyNumber::set(const QString& value, const QString& meaning, const Working* working) {
  setText(value);
  m_meaning = meaning;
  setAccessibleName(meaning + QLatin1Char(' ') + value);
  m_working = working != nullptr ? std::optional(*working) : std::nullopt;
  setFocusPolicy(opens() ? Qt::StrongFocus : Qt::NoFocus);
  setCursor(opens() ? Qt::PointingHandCursor : Qt::ArrowCursor);
  if (!m_leads) setToolTip(m_working ? tr("Show how this is worked out") : QString());
  update();
}

void KeyNumber::lead(const QString& tip) {
  m_leads = true;
  setToolTip(tip);
}

QSize KeyNumber::sizeHint() const {
  const int value = QFontMetrics(sized(font(), 16, true)).horizontalAdvance(text());
  const int meaning = QFontMetrics(sized(font(), space::leastFont)).horizontalAdvance(m_meaning);
  return {std::max(value, meaning) + 2 * space::medium + 2, answerHeight - 12};
}

void KeyNumber::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  const Tones tones = tonesOf(palette());
  if (opens() && (underMouse() || hasFocus())) {
    painter.setPen(QPen(hasFocus() ? tones.accent : tones.line, 1));
    painter.setBrush(blend(tones.sheet, tones.accent, 0.06));
    painter.drawRoundedRect(QRectF(rect()).adjusted(0.5, 0.5, -0.5, -0.5), space::small, space::small);
  }
  const QRectF box = QRectF(rect()).adjusted(space::medium, 3, -space::medium, -3);
  painter.setPen(tones.ink);
  painter.setFont(sized(font(), 16, true));
  painter.drawText(box, Qt::AlignLeft | Qt::AlignTop, text());
  painter.setPen(tones.quiet);
  painter.setFont(sized(font(), space::leastFont));
  painter.drawText(box, Qt::AlignLeft | Qt::AlignBottom, m_meaning);
  if (!opens()) return;
  const double width = painter.fontMetrics().horizontalAdvance(m_meaning);  // dotted: there is more behind it
  painter.setPen(QPen(tones.quiet, 1, Qt::DotLine));
  painter.drawLine(QPointF(box.left(), box.bottom() + 1), QPointF(box.left() + width, box.bottom() + 1));
}

AnswerLine::AnswerLine(QWidget* parent) : QWidget(parent) {
  setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
  rebuild();
}

QSize AnswerLine::sizeHint() const { return {1000, answerHeight}; }
QSize AnswerLine::minimumSizeHint() const { return {320, answerHeight}; }

void AnswerLine::setProject(const Project& project) {
  m_project = project;
  rebuild();
}

void AnswerLine::setAssessment(std::shared_ptr<const Assessment> assessment) {
  m_assessment = std::move(assessment);
  m_problem.clear();
  m_stale = false;
  rebuild();
}

void AnswerLine::setStale(bool stale) {
  m_stale = stale;
  for (KeyNumber* number : m_numbers) number->setEnabled(!stale);
  update();
}

void AnswerLine::setProblem(const QString& sentence) {
  m_problem = sentence;
  rebuild();
}

QString AnswerLine::sentence() const {
  if (!m_problem.isEmpty()) return m_problem;
  if (m_assessment == nullptr) return tr("Describe the part, the coat and the machine: the answer stands here.");
  return QString::fromStdString(m_assessment->answer);
}

std::vector<AnswerLine::Entry> AnswerLine::entries() const {
  std::vector<Entry> made;
  if (m_assessment == nullptr || !m_problem.isEmpty()) return made;
  const Assessment& now = *m_assessment;
  const auto open = static_cast<int>(openCount(now.precautions));
  if (!now.precautions.empty())
    made.push_back({beforeBeamKey, open > 0 ? tr("%1 open").arg(open) : tr("settled"), tr("before the beam is on")});
  if (!openStops(now.precautions).empty()) return made;
  const Ranges* ranges = now.ranges ? &*now.ranges : nullptr;
  const auto add = [&made](const char* key, const QString& meaning, std::optional<double> single, const std::optional<Spread>& spread,
                           const format::Shown& shown) {
    if (spread && std::isfinite(spread->low)) {
      const double likely = single.value_or(spread->middle);
      made.push_back(
          {key, format::ends(*spread, shown), std::isfinite(likely) ? tr("%1, likely %2").arg(meaning, shown(likely)) : meaning});
    } else if (single) {
      made.push_back({key, shown(*single), meaning});
    }
  };
  using None = std::optional<Spread>;
  const auto& needed = now.job.needed;
  const auto time_s = !ranges ? now.job.totalTime_s : needed ? std::optional(needed->totalTime_s) : std::nullopt;
  const auto cost = !ranges ? now.job.cost : needed ? needed->cost : std::nullopt;
  add("job.total_time_s", ranges ? tr("time to clear") : tr("time"), time_s, ranges ? ranges->totalTime_s : None(), format::duration);
  add("job.cost", ranges ? tr("price to clear") : tr("price"), cost, ranges ? ranges->cost : None(),
      [this](double amount) { return format::money(amount, m_project.currency); });
  const std::optional<int> passes = now.removal.passesNeeded;
  add("removal.passes_needed", tr("passes to clear"), passes ? std::optional<double>(*passes) : std::nullopt,
      ranges ? None(ranges->passesNeeded) : None(), format::count);
  if (const LimitResult* limit = tellingLimit(now.thermal.limits)) {
    const bool boils = now.thermal.boils(limit->predicted_C);
    made.push_back({"thermal.worst_margin",
                    (boils ? tr("%1 %2") : tr("%1 of %2")).arg(predicted(*limit), format::temperature(limit->limit_C)),
                    QString::fromStdString(limit->name)});
  }
  if (now.job.secondsPerA4) made.push_back({"job.minutes_per_A4", format::rate(*now.job.secondsPerA4), tr("pace")});
  return made;
}

/// What the limit is held against: the range of the face, where this limit is on the face's own number and its range is known.
QString AnswerLine::predicted(const LimitResult& limit) const {
  const auto whole = [](double value) { return QLocale().toString(value, 'f', 0); };
  if (m_assessment->thermal.boils(limit.predicted_C)) return tr("boils, limit");
  if (const std::optional<Spread> spread = spreadOf(limit, *m_assessment)) return format::ends(*spread, whole);
  return whole(limit.predicted_C);
}

KeyNumber* AnswerLine::numberOf(const char* key) {
  if (auto* there = findChild<KeyNumber*>(QLatin1String(key), Qt::FindDirectChildrenOnly)) return there;
  auto* made = new KeyNumber(QLatin1String(key), this);
  if (std::string_view(key) == beforeBeamKey) {
    made->lead(tr("Show what has to be settled before the beam is on"));
    connect(made, &KeyNumber::clicked, this, &AnswerLine::beforeBeamWanted);
  }
  return made;
}

/// Numbers that are there already are changed in place: focus and an open working stay.
void AnswerLine::rebuild() {
  setAccessibleName(sentence());
  setToolTip(sentence());
  const std::vector<KeyNumber*> before = std::exchange(m_numbers, {});
  for (const Entry& entry : entries()) {
    KeyNumber* number = numberOf(entry.key);
    number->set(entry.value, entry.meaning, findWorking(*m_assessment, entry.key));
    number->setEnabled(!m_stale);
    m_numbers.push_back(number);
  }
  for (KeyNumber* old : before)
    if (std::ranges::find(m_numbers, old) == m_numbers.end()) delete old;
  arrange();
  update();
}

/// From the right edge inwards, in reading order; the last ones go first where the sentence needs the room.
void AnswerLine::arrange() {
  int room = std::max(0, width() - leastSentence);
  std::vector<KeyNumber*> shown;
  for (KeyNumber* number : m_numbers) {
    const int needed = number->sizeHint().width();
    number->setVisible(needed <= room);
    if (needed > room) {
      room = 0;
      continue;
    }
    room -= needed;
    shown.push_back(number);
  }
  int right = width() - space::medium;
  for (auto number = shown.rbegin(); number != shown.rend(); ++number) {
    const QSize size = (*number)->sizeHint();
    right -= size.width();
    (*number)->setGeometry(right, (height() - size.height()) / 2, size.width(), size.height());
  }
}

QRect AnswerLine::sentenceBox() const {
  int right = width() - space::large;
  for (const KeyNumber* number : m_numbers) {
    if (!number->isHidden()) right = std::min(right, number->x() - space::large);
  }
  const int left = space::large + answerShape_px + space::large;
  return QRect(left, 2, std::max(40, right - left), height() - 4);
}

void AnswerLine::resizeEvent(QResizeEvent*) { arrange(); }

void AnswerLine::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  const Tones tones = tonesOf(palette());
  painter.fillRect(rect(), tones.sheet);
  painter.setPen(QPen(tones.line, 1));
  painter.drawLine(0, height() - 1, width(), height() - 1);
  const bool answered = m_assessment != nullptr && m_problem.isEmpty();
  const Status worst = answered ? worstOf(m_assessment->verdict) : Status::NotKnown;
  paintState(painter, QRectF(space::large, (height() - answerShape_px) / 2.0, answerShape_px, answerShape_px), worst, palette());
  const QRect box = sentenceBox();
  QFont font;
  for (const int size : {space::answerFont, space::headFont + 2, space::headFont}) {  // the largest that fits
    font = sized(this->font(), size);
    if (QFontMetrics(font).boundingRect(box, Qt::AlignLeft | Qt::TextWordWrap, sentence()).height() <= box.height()) break;
  }
  const QFontMetrics metrics(font);
  painter.setFont(font);
  painter.setPen(m_stale ? tones.quiet : tones.ink);
  const QRect needed = metrics.boundingRect(box, Qt::AlignLeft | Qt::AlignVCenter | Qt::TextWordWrap, sentence());
  const QString shown = needed.height() <= box.height()
                            ? sentence()
                            : metrics.elidedText(sentence(), Qt::ElideRight, box.height() / metrics.lineSpacing() * box.width() - 60);
  painter.drawText(box, Qt::AlignLeft | Qt::AlignVCenter | Qt::TextWordWrap, shown);
}

}  // namespace bw
