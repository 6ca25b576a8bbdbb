// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/start/start_project.h"

#include <QWidget>

class QVBoxLayout;

namespace bw {

class Chooser;

/// The colours seen at a chip, top first: a list that grows by choosing the next one down.
class ColourList : public QWidget {
  Q_OBJECT
 public:
  explicit ColourList(QWidget* parent = nullptr);

  const std::vector<ChipColour>& colours() const { return m_colours; }
  void clear();

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  void add(const QString& word);
  void remove(std::size_t index);
  void rebuild();

  std::vector<ChipColour> m_colours;
  Chooser* m_next;
  QVBoxLayout* m_rows;
};

}  // namespace bw
