// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plots/view_switch.h"

#include <QHBoxLayout>
#include <QToolButton>

namespace bw {

ViewSwitch::ViewSwitch(const std::vector<Word>& words, int shown, QWidget* parent) : QWidget(parent), m_shown(shown) {
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(0);
  for (const Word& word : words) {
    auto* button = new QToolButton;
    button->setObjectName(QLatin1String(word.name));
    button->setText(word.text);
    button->setToolTip(word.tip);
    button->setAccessibleDescription(word.tip);
    button->setCheckable(true);
    row->addWidget(button);
    m_buttons.emplace_back(word.view, button);
    connect(button, &QToolButton::clicked, this, [this, view = word.view] {
      setShown(m_shown);
      if (view != m_shown) emit chosen(view);
    });
  }
  setShown(shown);
}

void ViewSwitch::setShown(int view) {
  m_shown = view;
  for (const auto& [its, button] : m_buttons) button->setChecked(its == view);
}

}  // namespace bw
