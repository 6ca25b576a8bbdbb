// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

class QToolButton;

namespace bw {

/// Words beside each other for ways to look at the same thing; one is on. A press only asks: who shows the view says which is on.
class ViewSwitch : public QWidget {
  Q_OBJECT

 public:
  struct Word {
    int view;
    const char* name;  // the button's object name
    QString text, tip;
  };

  ViewSwitch(const std::vector<Word>& words, int shown, QWidget* parent = nullptr);

  void setShown(int view);

 signals:
  void chosen(int view);  // another than the one that is on

 private:
  std::vector<std::pair<int, QToolButton*>> m_buttons;
  int m_shown;
};

}  // namespace bw
