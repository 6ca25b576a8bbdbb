// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/substance.h"

#include <QAbstractListModel>

namespace bw {

/// The coatings a layer can be made of, as the shop says them, each with a swatch of its colour. "Don't know" stands first.
class CoatingModel : public QAbstractListModel {
  Q_OBJECT
 public:
  explicit CoatingModel(QObject* parent = nullptr) : QAbstractListModel(parent) {}

  /// The shipped coatings, and those only the project knows.
  void setLibraries(const Library& shipped, const Library& own);
  /// Row of that id; -1 when it is not there.
  int rowOf(const QString& id) const;

  int rowCount(const QModelIndex& parent = {}) const override;
  QVariant data(const QModelIndex& index, int role) const override;

 private:
  struct Row {
    QString id;
    QString name;
    QString note;
    QString colour;
  };
  std::vector<Row> m_rows;
};

}  // namespace bw
