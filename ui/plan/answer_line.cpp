// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plan/answer_line.h"

#include "ui/plan/working.h"
#include "ui/style/format.h"
#include "ui/style/theme.h"

#include <QPainter>
#include <algorithm>

namespace bw {

namespace {

constexpr int lineHeight = 56;
constexpr int shape_px = 28;
constexpr int leastSentence = 420;  // px; key numbers give way before the sentence does

QFont sized(QFont font, int size_px, bool heavy = false) {
  font.setPixelSize(size_px);
  font.setBold(heavy);
  return font;
}

/// The limit that binds: least margin of those that count.
const LimitResult* bindingLimit(const ThermalResult& thermal) {
  const LimitResult* found = nullptr;
  for (const LimitResult& limit : thermal.limits) {
    if (limit.warnOnly || !limit.margin) continue;
    if (found == nullptr || *limit.margin < *found->margin) found = &limit;
  }
  return found;
}

}  // namespace

KeyNumber::KeyNumber(const QString& value, const QString& meaning, const Working* working, QWidget* parent)
    : QAbstractButton(parent), m_meaning(meaning) {
  setText(value);
  setAccessibleName(meaning + QLatin1Char(' ') + value);
  if (working == nullptr) {
    setFocusPolicy(Qt::NoFocus);
    return;
  }
  m_working = *working;
  setFocusPolicy(Qt::StrongFocus);
  setCursor(Qt::PointingHandCursor);
  setAttribute(Qt::WA_Hover);
  setToolTip(tr("Show how this is worked out"));
  connect(this, &QAbstractButton::clicked, this, [this] { openWorking(*m_working, this); });
}

QSize KeyNumber::sizeHint() const {
  const int value = QFontMetrics(sized(font(), 16, true)).horizontalAdvance(text());
  const int meaning = QFontMetrics(sized(font(), space::leastFont)).horizontalAdvance(m_meaning);
  return {std::max(value, meaning) + 2 * space::medium + 2, lineHeight - 12};
}

void KeyNumber::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  const Tones tones = tonesOf(palette());
  if (m_working && (underMouse() || hasFocus())) {
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
  if (!m_working) return;
  const double width = painter.fontMetrics().horizontalAdvance(m_meaning);  // dotted: there is more behind it
  painter.setPen(QPen(tones.quiet, 1, Qt::DotLine));
  painter.drawLine(QPointF(box.left(), box.bottom() + 1), QPointF(box.left() + width, box.bottom() + 1));
}

AnswerLine::AnswerLine(QWidget* parent) : QWidget(parent) {
  setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
  rebuild();
}

QSize AnswerLine::sizeHint() const { return {1000, lineHeight}; }
QSize AnswerLine::minimumSizeHint() const { return {320, lineHeight}; }

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

void AnswerLine::rebuild() {
  for (KeyNumber* number : m_numbers) delete number;
  m_numbers.clear();
  setAccessibleName(sentence());
  setToolTip(sentence());
  if (m_assessment != nullptr && m_problem.isEmpty()) {
    const Assessment& now = *m_assessment;
    if (now.job.totalTime_s) add(format::duration(*now.job.totalTime_s), tr("time"), "job.total_time_s");
    if (now.job.cost) add(format::money(*now.job.cost, m_project.currency), tr("price"), "job.cost");
    if (now.removal.passesNeeded) add(format::count(*now.removal.passesNeeded), tr("passes to bare"), "removal.passes_needed");
    if (const LimitResult* limit = bindingLimit(now.thermal)) {
      const QString value = tr("%1 of %2").arg(QLocale().toString(limit->predicted_C, 'f', 0), format::temperature(limit->limit_C));
      add(value, QString::fromStdString(limit->name), "thermal.worst_margin");
    }
    if (now.job.secondsPerA4) add(format::rate(*now.job.secondsPerA4), tr("pace"), "job.minutes_per_A4");
  }
  arrange();
  update();
}

void AnswerLine::add(const QString& value, const QString& meaning, const char* key) {
  auto* number = new KeyNumber(value, meaning, findWorking(*m_assessment, key), this);
  number->setObjectName(QString::fromLatin1(key));
  number->show();
  m_numbers.push_back(number);
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
  const int left = space::large + shape_px + space::large;
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
  paintState(painter, QRectF(space::large, (height() - shape_px) / 2.0, shape_px, shape_px), worst, palette());
  const QRect box = sentenceBox();
  QFont font = sized(this->font(), space::answerFont);
  if (QFontMetrics(font).horizontalAdvance(sentence()) > box.width()) font = sized(this->font(), space::headFont + 2);  // two lines
  const QFontMetrics metrics(font);
  painter.setFont(font);
  painter.setPen(m_stale ? tones.quiet : tones.ink);
  const QRect needed = metrics.boundingRect(box, Qt::AlignLeft | Qt::AlignVCenter | Qt::TextWordWrap, sentence());
  const QString shown = needed.height() <= box.height() ? sentence() : metrics.elidedText(sentence(), Qt::ElideRight, 2 * box.width() - 60);
  painter.drawText(box, Qt::AlignLeft | Qt::AlignVCenter | Qt::TextWordWrap, shown);
}

}  // namespace bw
