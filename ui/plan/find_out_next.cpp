// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plan/find_out_next.h"

#include "ui/plan/form.h"
#include "ui/style/format.h"
#include "ui/style/range_text.h"
#include "ui/style/theme.h"

#include <QLabel>
#include <QPainter>
#include <QToolButton>
#include <QVBoxLayout>

#include <algorithm>
#include <cmath>

namespace bw {

namespace {

constexpr std::size_t mostBars = 5;
constexpr double leastShare = 0.02;  // of the spread, to be worth a bar
constexpr int barHeight = 14;

QLabel* label(const QString& text, QPalette::ColorRole role, int size_px, bool heavy = false) {
  auto* made = new QLabel(text);
  made->setWordWrap(true);
  made->setForegroundRole(role);
  made->setTextInteractionFlags(Qt::TextSelectableByMouse);
  QFont font = made->font();
  font.setPixelSize(size_px);
  font.setBold(heavy);
  made->setFont(font);
  return made;
}

QString capital(const std::string& words) {
  QString text = QString::fromStdString(words);
  if (!text.isEmpty()) text[0] = text[0].toUpper();
  return text;
}

QString passEnds(const Spread& passes) {
  return std::isfinite(passes.low) ? format::ends(passes, format::passes) : InfluenceBar::tr("never clears");
}

}  // namespace

QString influenceWords(const Influence& influence, const Ranges& ranges) {
  const QString what = QString::fromStdString(influence.what), now = passEnds(ranges.passesNeeded),
                then = passEnds(influence.passesIfKnown);
  return now == then ? InfluenceBar::tr("%1: still %2").arg(what, now) : InfluenceBar::tr("%1: %2 becomes %3").arg(what, now, then);
}

InfluenceBar::InfluenceBar(const Influence& influence, const Ranges& ranges, QWidget* parent)
    : QWidget(parent), m_sentence(influenceWords(influence, ranges)), m_share(std::clamp(influence.share, 0.0, 1.0)) {
  QSizePolicy policy(QSizePolicy::Preferred, QSizePolicy::Fixed);
  policy.setHeightForWidth(true);
  setSizePolicy(policy);
  QFont small = font();
  small.setPixelSize(space::leastFont);
  setFont(small);
  setAccessibleName(m_sentence);
  QString why = tr("Not knowing this accounts for %1 of the passes' spread; if it turns out as likely, the second range is left.")
                    .arg(format::percent(m_share));
  if (!influence.how.empty()) why += QLatin1Char(' ') + tr("How: %1.").arg(QString::fromStdString(influence.how));
  setAccessibleDescription(why);
  setToolTip(why);
}

int InfluenceBar::heightForWidth(int width) const {
  return fontMetrics().boundingRect(QRect(0, 0, std::max(60, width), 1000), Qt::TextWordWrap, m_sentence).height() + barHeight + 2;
}

void InfluenceBar::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.setOpacity(isEnabled() ? 1 : 0.5);
  const Tones tones = tonesOf(palette());
  painter.setPen(tones.ink);
  painter.drawText(QRect(0, 0, width(), height() - barHeight), Qt::TextWordWrap, m_sentence);
  const QString share = format::percent(m_share);
  const double room = fontMetrics().horizontalAdvance(format::percent(1)) + 6;
  const QRectF track(0, height() - barHeight + 3, width() - room, barHeight - 6);
  painter.fillRect(track, blend(tones.sheet, tones.line, 0.7));
  painter.fillRect(QRectF(track.left(), track.top(), std::max(1.0, track.width() * m_share), track.height()), tones.accent);
  painter.setPen(tones.quiet);
  painter.drawText(QRectF(track.right(), height() - barHeight, room, barHeight), Qt::AlignRight | Qt::AlignVCenter, share);
}

FindOutNextBlock::FindOutNextBlock(QWidget* parent)
    : QWidget(parent),
      m_first(new QVBoxLayout),
      m_more(makeFoldButton(QStringLiteral("whatAffectsPasses"), tr("What affects the passes"))),
      m_fold(new QWidget),
      m_folded(new QVBoxLayout(m_fold)) {
  QFont small = font();
  small.setPixelSize(space::leastFont);
  m_more->setFont(small);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(space::large, space::small, space::large, space::hair);
  column->setSpacing(space::hair);
  column->addLayout(m_first);
  column->addWidget(m_more, 0, Qt::AlignLeft);
  column->addWidget(m_fold);
  m_first->setSpacing(space::hair);
  m_folded->setContentsMargins(0, 0, 0, space::medium);
  m_folded->setSpacing(space::small);
  m_fold->setVisible(false);
  connect(m_more, &QToolButton::toggled, m_fold, &QWidget::setVisible);
  setVisible(false);
}

QString FindOutNextBlock::state() const { return m_state == nullptr ? QString() : m_state->text(); }

void FindOutNextBlock::setAssessment(const std::shared_ptr<const Assessment>& assessment, bool moreToCome) {
  const bool stays = assessment != nullptr && !assessment->ranges && moreToCome && m_hasSpread;
  setEnabled(!stays);
  if (stays) return;
  m_hasSpread = assessment != nullptr && assessment->ranges.has_value();
  setVisible(assessment != nullptr);
  if (assessment != nullptr) rebuild(*assessment, moreToCome);
}

void FindOutNextBlock::rebuild(const Assessment& assessment, bool moreToCome) {
  for (QVBoxLayout* layout : {m_first, m_folded}) {
    while (QLayoutItem* item = layout->takeAt(0)) {
      delete item->widget();
      delete item;
    }
  }
  m_bars.clear();
  m_state = nullptr;
  m_first->addWidget(label(tr("Find out next"), QPalette::PlaceholderText, space::leastFont, true));
  for (const FindOutNext& next : assessment.findOutNext) addSuggestion(m_first->count() == 1 ? *m_first : *m_folded, next);
  if (assessment.removal.computed) addInfluences(assessment, moreToCome);
  m_more->setVisible(m_folded->count() > 0);
}

void FindOutNextBlock::addSuggestion(QVBoxLayout& column, const FindOutNext& next) {
  column.addWidget(label(capital(next.what), QPalette::Text, space::bodyFont, true));
  if (!next.how.empty()) column.addWidget(label(capital(next.how), QPalette::Text, space::bodyFont));
  if (!next.narrows.empty())
    m_folded->addWidget(label(tr("Narrows: %1").arg(QString::fromStdString(next.narrows)), QPalette::PlaceholderText, space::leastFont));
}

void FindOutNextBlock::addInfluences(const Assessment& assessment, bool moreToCome) {
  if (assessment.ranges) {
    for (const Influence& influence : assessment.ranges->influences) {
      if (influence.share < leastShare || m_bars.size() == mostBars) break;  // greatest first
      m_bars.push_back(new InfluenceBar(influence, *assessment.ranges));
    }
  }
  for (InfluenceBar* bar : m_bars) m_folded->addWidget(bar);
  if (!m_bars.empty()) return;
  m_state = label(assessment.ranges ? tr("Nothing that is uncertain here changes the number of passes.")
                  : moreToCome      ? tr("What affects the number of passes follows in a moment.")
                                    : tr("Single estimate, spread not computed: what affects the number of passes is not known."),
                  QPalette::PlaceholderText, space::leastFont);
  m_folded->addWidget(m_state);
}

}  // namespace bw
