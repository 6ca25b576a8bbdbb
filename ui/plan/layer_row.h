// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/project_document.h"

#include <QWidget>

class QCheckBox;
class QComboBox;
class QLineEdit;

namespace bw {

class CoatingModel;
class LayerTestButton;
class QuantityField;

/// One layer in the table of the coat: name and thickness; under them, for the chosen layer, the coating and "keep".
class LayerRow : public QWidget {
  Q_OBJECT
 public:
  LayerRow(ProjectDocument& document, std::size_t index, CoatingModel& coatings, QWidget* parent = nullptr);

  void refresh();
  void setSelected(bool selected);

 signals:
  void chosen(int index);

 protected:
  void paintEvent(QPaintEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  void build(CoatingModel& coatings);
  void connectEdits();
  void forgetThickness();
  const Layer& layer() const { return m_document.project().coat.at(m_index); }

  ProjectDocument& m_document;
  std::size_t m_index;
  bool m_selected = false;
  QColor m_colour;
  QLineEdit* m_name;
  QuantityField* m_thickness;
  QComboBox* m_coating;
  QCheckBox* m_keep;
  LayerTestButton* m_test;
  QWidget* m_more;  // coating, "keep" and what it may hold: shown for the chosen layer
};

}  // namespace bw
