// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/recipes/facet_button.h"

#include <QMenu>

#include <algorithm>

namespace bw {
namespace {

constexpr std::size_t mostShown = 40;  // the most frequent; the search field finds the rest
constexpr int chrome_px = 40;          // border, space and arrow

}  // namespace

FacetButton::FacetButton(const QString& name, Choice choice, QWidget* parent)
    : QPushButton(parent), m_name(name), m_choice(choice), m_choices(new QMenu(this)), m_words([](const std::string& value) {
        return QString::fromStdString(value);
      }) {
  setProperty("boxed", true);
  setMenu(m_choices);
  setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Fixed);
  setMinimumWidth(96);
  connect(m_choices, &QMenu::aboutToShow, this, &FacetButton::rebuild);
  showChosen();
}

void FacetButton::setCounts(const std::vector<FacetCount>& counts, const Words& words) {
  m_counts = counts;
  m_words = words;
  showChosen();
}

void FacetButton::clear() {
  m_chosen.clear();
  showChosen();
}

void FacetButton::toggle(const std::string& value) {
  if (std::erase(m_chosen, value) == 0) {
    if (m_choice == Choice::One) m_chosen.clear();
    m_chosen.push_back(value);
  }
  showChosen();
  emit changed();
}

/// Built when it is wanted, so that typing in the search field costs no menus.
void FacetButton::rebuild() {
  m_choices->clear();
  QAction* any = m_choices->addAction(tr("any"), this, [this] {
    clear();
    emit changed();
  });
  any->setCheckable(true);
  any->setChecked(m_chosen.empty());
  m_choices->addSeparator();
  std::vector<FacetCount> shown = m_counts;
  if (shown.size() > mostShown) shown.resize(mostShown);
  for (const std::string& value : m_chosen) {
    if (std::ranges::find(shown, value, &FacetCount::value) == shown.end()) shown.push_back({value, 0});
  }
  for (const FacetCount& count : shown) {
    QAction* action = m_choices->addAction(QStringLiteral("%1\t%2").arg(m_words(count.value)).arg(count.count), this,
                                           [this, value = count.value] { toggle(value); });
    action->setCheckable(true);
    action->setChecked(std::ranges::find(m_chosen, count.value) != m_chosen.end());
  }
}

void FacetButton::showChosen() {
  QStringList names;
  for (const std::string& value : m_chosen) names << m_words(value);
  const QString all = names.isEmpty() ? tr("any") : names.join(m_choice == Choice::Several ? tr(" or ") : QString());
  const QString whole = tr("%1: %2").arg(m_name, all);
  // Space before the words: a button with a menu leaves none by itself.
  setText(QStringLiteral("\u00a0\u00a0") + fontMetrics().elidedText(whole, Qt::ElideRight, std::max(40, width() - chrome_px)));
  setToolTip(whole);
  setAccessibleName(whole);
  QFont font = this->font();
  font.setBold(!m_chosen.empty());
  setFont(font);
}

void FacetButton::resizeEvent(QResizeEvent* event) {
  QPushButton::resizeEvent(event);
  showChosen();
}

}  // namespace bw
