// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plan/fact_list.h"

#include "ui/style/theme.h"

#include <QLabel>
#include <QPainter>
#include <QVBoxLayout>

#include <algorithm>

namespace bw {

namespace {

constexpr int swatch_px = 12;

/// Makes or removes widgets until there are as many as wanted, in a part of the layout that begins at `from`.
template <class Widget>
void resizeTo(std::vector<Widget*>& widgets, std::size_t wanted, QVBoxLayout& layout, std::size_t from) {
  while (widgets.size() > wanted) {
    delete widgets.back();
    widgets.pop_back();
  }
  while (widgets.size() < wanted) {
    auto* made = new Widget;
    layout.insertWidget(static_cast<int>(from + widgets.size()), made);
    widgets.push_back(made);
  }
}

}  // namespace

FactLine::FactLine(QWidget* parent) : QWidget(parent), m_words(new QLabel) {
  QFont small = font();
  small.setPixelSize(space::leastFont);
  m_words->setFont(small);
  m_words->setWordWrap(true);
  m_words->setTextInteractionFlags(Qt::TextSelectableByMouse);
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(0, 0, 0, 0);
  row->addWidget(m_words);
}

void FactLine::setFact(const Fact& fact) {
  m_colour = fact.layer;
  m_words->setText(fact.text);
  setToolTip(fact.tip);
  setAccessibleName(fact.text);
  setAccessibleDescription(fact.tip);
  layout()->setContentsMargins(m_colour.isValid() ? swatch_px + space::medium - 2 : 0, 0, 0, 0);
  update();
}

QString FactLine::text() const { return m_words->text(); }

void FactLine::paintEvent(QPaintEvent*) {
  if (!m_colour.isValid()) return;
  QPainter painter(this);
  painter.setPen(QPen(tonesOf(palette()).quiet, 1));
  painter.setBrush(m_colour);
  painter.drawRect(QRectF(0.5, 2.5, swatch_px - 1, swatch_px - 1));
}

DetailList::DetailList(QWidget* parent) : QWidget(parent) {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(space::small + 1);
}

void DetailList::set(const std::vector<MarginLine>& margins, const std::vector<RangeLine>& ranges, const std::vector<Fact>& facts,
                     bool wait) {
  const bool stays = wait && m_hasSpread;
  setEnabled(!stays);
  if (stays) return;
  m_hasSpread = std::ranges::any_of(ranges, [](const RangeLine& line) { return line.spread.has_value(); }) ||
                std::ranges::any_of(margins, [](const MarginLine& line) { return line.spread.has_value(); });
  auto& column = *static_cast<QVBoxLayout*>(layout());
  resizeTo(m_margins, margins.size(), column, 0);
  resizeTo(m_bars, ranges.size(), column, m_margins.size());
  resizeTo(m_facts, facts.size(), column, m_margins.size() + m_bars.size());
  for (std::size_t i = 0; i < margins.size(); ++i) m_margins[i]->setLine(margins[i]);
  for (std::size_t i = 0; i < ranges.size(); ++i) m_bars[i]->setLine(ranges[i]);
  for (std::size_t i = 0; i < facts.size(); ++i) m_facts[i]->setFact(facts[i]);
  setVisible(!margins.empty() || !ranges.empty() || !facts.empty());
}

}  // namespace bw
