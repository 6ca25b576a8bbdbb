// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/project_document.h"

#include <QWidget>

class QTableView;

namespace bw {

class AreaModel;

/// The areas to strip, as a small table that is edited in place.
class AreaTable : public QWidget {
  Q_OBJECT
 public:
  explicit AreaTable(ProjectDocument& document, QWidget* parent = nullptr);

 private:
  void fitHeight();

  AreaModel* m_model;
  QTableView* m_view;
};

}  // namespace bw
