// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/recipe_search.h"

#include <QPushButton>
#include <QStringList>

#include <functional>

class QMenu;

namespace bw {

/// One facet as a button that drops down its choices with how many recipes each would leave. Several may be chosen, or one at a time.
class FacetButton : public QPushButton {
  Q_OBJECT
 public:
  enum class Choice { One, Several };
  using Words = std::function<QString(const std::string& value)>;

  FacetButton(const QString& name, Choice choice, QWidget* parent = nullptr);

  void setCounts(const std::vector<FacetCount>& counts, const Words& words);
  const std::vector<std::string>& chosen() const { return m_chosen; }
  void clear();
  /// Chooses or drops a value, as a click in the menu does.
  void toggle(const std::string& value);

 signals:
  void changed();

 protected:
  void resizeEvent(QResizeEvent* event) override;

 private:
  void rebuild();
  void showChosen();

  QString m_name;
  Choice m_choice;
  QMenu* m_choices;
  std::vector<FacetCount> m_counts;
  Words m_words;
  std::vector<std::string> m_chosen;
};

}  // namespace bw
