// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/project_document.h"

#include <QWidget>

class QToolButton;
class QVBoxLayout;

namespace bw {

class CoatingModel;
class LayerRow;

/// The layers of the coat, top first: each with name, thickness, coating and whether it must stay; layers are added, moved, removed.
class CoatTable : public QWidget {
  Q_OBJECT
 public:
  explicit CoatTable(ProjectDocument& document, QWidget* parent = nullptr);

  void select(int layer);
  int selected() const { return m_selected; }

 private:
  QToolButton* makeButton(const char* objectName, const QString& icon, const QString& tip, void (CoatTable::*slot)());
  void addLayer();
  void moveUp();
  void moveDown();
  void removeLayer();
  void refresh(Changes changes);
  void refreshButtons();
  int layerCount() const { return static_cast<int>(m_document.project().coat.size()); }

  ProjectDocument& m_document;
  CoatingModel* m_coatings;
  QWidget* m_empty;
  QVBoxLayout* m_column;
  std::vector<LayerRow*> m_rows;
  int m_selected = 0;
  QToolButton* m_up;
  QToolButton* m_down;
  QToolButton* m_remove;
};

}  // namespace bw
