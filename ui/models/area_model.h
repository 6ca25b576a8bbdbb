// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/project_document.h"

#include <QAbstractTableModel>

namespace bw {

/// The areas of the part: name, square centimetres, tilt, access. Writing goes through edits, so that it can be undone.
class AreaModel : public QAbstractTableModel {
  Q_OBJECT
 public:
  enum Column { Name, Size, Tilt, AccessKind, ColumnCount };

  explicit AreaModel(ProjectDocument& document, QObject* parent = nullptr);

  void add();
  void remove(int row);

  int rowCount(const QModelIndex& parent = {}) const override;
  int columnCount(const QModelIndex& parent = {}) const override;
  QVariant data(const QModelIndex& index, int role) const override;
  QVariant headerData(int section, Qt::Orientation orientation, int role) const override;
  Qt::ItemFlags flags(const QModelIndex& index) const override;
  bool setData(const QModelIndex& index, const QVariant& value, int role) override;

  static QStringList accessWords();

 signals:
  /// Says what is wrong with an entry that was not taken; empty when all is well.
  void problem(const QString& sentence);

 private:
  QString text(const Area& area, int column) const;
  QString write(Area& area, int column, const QString& typed) const;

  ProjectDocument& m_document;
  std::vector<Area> m_areas;  // as last told to the views
};

}  // namespace bw
