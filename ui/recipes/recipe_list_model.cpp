// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/recipes/recipe_list_model.h"

#include "core/files/library_file.h"
#include "ui/library/recipe_words.h"
#include "ui/style/format.h"

#include <algorithm>

namespace bw {
namespace {

const Library& orShipped(const std::shared_ptr<const Library>& materials) { return materials ? *materials : shippedLibrary(); }

}  // namespace

RecipeListModel::RecipeListModel(QObject* parent) : QAbstractListModel(parent) {}

void RecipeListModel::setNames(std::shared_ptr<const Library> materials, const std::vector<Machine>& machines) {
  m_materials = std::move(materials);
  m_machines = machines;
  m_details.clear();  // of another library, or of other machines
}

void RecipeListModel::show(const FoundRecipes& found) {
  m_total = found.total;
  if (found.skipped > 0) {
    if (found.skipped != m_items.size() || found.recipes.empty()) return;  // the list is another one by now
    const int first = static_cast<int>(m_items.size());
    beginInsertRows({}, first, first + static_cast<int>(found.recipes.size()) - 1);
    for (const FoundRecipe& recipe : found.recipes) m_items.push_back(itemOf(recipe));
    endInsertRows();
    return;
  }
  beginResetModel();
  m_asked = 0;
  m_items.clear();
  for (const FoundRecipe& recipe : found.recipes) m_items.push_back(itemOf(recipe));
  endResetModel();
}

RecipeListModel::Item RecipeListModel::itemOf(const FoundRecipe& found) const {
  Item item;
  item.found = found;
  const Library& materials = orShipped(m_materials);
  item.metal = words::substrate(materials, found.row.substrate);
  item.machine = machineName(found.row.machine);
  Coat coat;
  for (const std::string& id : found.row.coatings) {
    Layer& layer = coat.emplace_back();
    layer.coating = id;
    layer.thickness_m = Range::exact(found.row.coat_m / static_cast<double>(found.row.coatings.size()));
  }
  item.layers = layerPictures(coat, materials);
  if (const auto known = m_details.find(found.row.id); known != m_details.end()) enrich(item, known->second);
  return item;
}

void RecipeListModel::enrich(Item& item, const RowDetail& detail) const {
  if (detail.version != item.found.row.version) return;
  item.layers = layerPictures(detail.coat, detail.materials);
  item.stale = detail.stale;
  if (!detail.machine.isEmpty()) item.machine = detail.machine;
  item.metal = words::substrate(findSubstrate(detail.materials, item.found.row.substrate) ? detail.materials : orShipped(m_materials),
                                item.found.row.substrate);
}

void RecipeListModel::addDetails(const std::map<std::string, RowDetail>& details) {
  for (const auto& [id, detail] : details) m_details[id] = detail;
  for (Item& item : m_items) {
    if (const auto found = details.find(item.found.row.id); found != details.end()) enrich(item, found->second);
  }
  if (!m_items.empty()) emit dataChanged(index(0), index(static_cast<int>(m_items.size()) - 1));
}

std::vector<std::string> RecipeListModel::withoutDetails() const {
  std::vector<std::string> ids;
  for (const Item& item : m_items) {
    const auto known = m_details.find(item.found.row.id);
    if (known == m_details.end() || known->second.version != item.found.row.version) ids.push_back(item.found.row.id);
  }
  return ids;
}

QString RecipeListModel::machineName(const std::string& id) const {
  const auto found = std::ranges::find(m_machines, id, &Machine::id);
  return found == m_machines.end() ? words::readable(id) : QString::fromStdString(found->name);
}

int RecipeListModel::rowOf(const QString& id) const {
  const auto found = std::ranges::find_if(m_items, [wanted = id.toStdString()](const Item& item) { return item.found.row.id == wanted; });
  return found == m_items.end() ? -1 : static_cast<int>(found - m_items.begin());
}

int RecipeListModel::rowCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : static_cast<int>(m_items.size()); }

QVariant RecipeListModel::data(const QModelIndex& index, int role) const {
  if (!checkIndex(index, CheckIndexOption::IndexIsValid)) return {};
  const Item& shown = item(index.row());
  switch (role) {
    case Qt::DisplayRole:
      return QString::fromStdString(shown.found.row.name);
    case Qt::ToolTipRole:
      return spoken(shown);
    case Qt::AccessibleTextRole:
      return spoken(shown);
    case IdRole:
      return QString::fromStdString(shown.found.row.id);
    default:
      return {};
  }
}

QString RecipeListModel::spoken(const Item& item) const {
  QStringList parts{QString::fromStdString(item.found.row.name), words::state(item.found.row.state, item.stale)};
  if (!item.found.row.reason.empty()) parts << QString::fromStdString(item.found.row.reason);
  QStringList layers;
  for (const LayerPicture& layer : item.layers) layers << layer.words.section(QLatin1Char(','), 0, 0);
  parts << workWords(item) << tr("coat from the top: %1").arg(layers.join(QStringLiteral(", ")));
  if (item.found.distance) parts << nearWords(item.found);
  return parts.join(QStringLiteral(". "));
}

bool RecipeListModel::canFetchMore(const QModelIndex& parent) const {
  return !parent.isValid() && m_items.size() < m_total && m_asked < m_items.size();
}

void RecipeListModel::fetchMore(const QModelIndex& parent) {
  if (!canFetchMore(parent)) return;
  m_asked = m_items.size();
  emit moreWanted(m_asked);
}

QString workWords(const RecipeListModel::Item& item) {
  const RecipeRow& row = item.found.row;
  return RecipeListModel::tr("%1 on %2 %3, %4")
      .arg(format::micrometres(row.coat_m), format::millimetres(row.plate_m), item.metal.toLower(), item.machine);
}

QString nearWords(const FoundRecipe& found) {
  if (found.parts.empty()) return RecipeListModel::tr("the same work");
  QStringList words;
  for (std::size_t i = 0; i < std::min<std::size_t>(found.parts.size(), 2); ++i) words << QString::fromStdString(found.parts[i].words);
  if (found.parts.size() > 2) words << RecipeListModel::tr("and %1 more").arg(found.parts.size() - 2);
  return words.join(QStringLiteral("; "));
}

}  // namespace bw
