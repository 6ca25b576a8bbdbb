// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/library/coat_strip.h"
#include "ui/library/library_jobs.h"

#include <QAbstractListModel>

namespace bw {

/// The recipes that were found, as far as they are loaded; the next ones are asked for when the end of the list comes into view.
class RecipeListModel : public QAbstractListModel {
  Q_OBJECT
 public:
  struct Item {
    FoundRecipe found;
    QString metal;
    QString machine;
    std::vector<LayerPicture> layers;  // without thickness until the details are there
    bool stale = false;
  };
  enum Role { IdRole = Qt::UserRole };

  explicit RecipeListModel(QObject* parent = nullptr);

  /// Names and colours of materials, names of machines.
  void setNames(std::shared_ptr<const Library> materials, const std::vector<Machine>& machines);
  /// Takes the place of the list, or, where `skipped` is not 0, goes on after it.
  void show(const FoundRecipes& found);
  void addDetails(const std::map<std::string, RowDetail>& details);
  /// Ids of rows whose details are not there yet.
  std::vector<std::string> withoutDetails() const;

  const Item& item(int row) const { return m_items[static_cast<std::size_t>(row)]; }
  int rowOf(const QString& id) const;
  std::size_t total() const { return m_total; }

  int rowCount(const QModelIndex& parent = {}) const override;
  QVariant data(const QModelIndex& index, int role) const override;
  bool canFetchMore(const QModelIndex& parent) const override;
  void fetchMore(const QModelIndex& parent) override;

 signals:
  void moreWanted(std::size_t from);

 private:
  Item itemOf(const FoundRecipe& found) const;
  void enrich(Item& item, const RowDetail& detail) const;
  QString machineName(const std::string& id) const;
  QString spoken(const Item& item) const;

  std::vector<Item> m_items;
  std::map<std::string, RowDetail> m_details;  // of recipes seen before, good as long as the version is the same
  std::shared_ptr<const Library> m_materials;
  std::vector<Machine> m_machines;
  std::size_t m_total = 0;
  std::size_t m_asked = 0;  // the row from which more were asked for last
};

/// "150 µm on 1.2 mm mild steel; pulsed 300 W".
QString workWords(const RecipeListModel::Item& item);
/// The first reason why it is near or not quite: "same coat; stainless steel instead of mild steel".
QString nearWords(const FoundRecipe& found);

}  // namespace bw
