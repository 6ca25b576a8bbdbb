// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/models/area_model.h"

#include "ui/document/edits.h"
#include "ui/fields/quantity_text.h"

namespace bw {
namespace {

constexpr double smallestArea_m2 = 1e-6;
constexpr double largestArea_m2 = 1000;
constexpr double steepest_rad = 80 * 0.017453292519943295;

}  // namespace

AreaModel::AreaModel(ProjectDocument& document, QObject* parent)
    : QAbstractTableModel(parent), m_document(document), m_areas(document.project().part.areas) {
  connect(&m_document, &ProjectDocument::changed, this, [this](Changes changes) {
    if (!(changes & Change::Part) || m_areas == m_document.project().part.areas) return;
    beginResetModel();
    m_areas = m_document.project().part.areas;
    endResetModel();
  });
}

QStringList AreaModel::accessWords() { return {tr("open"), tr("tight"), tr("hidden")}; }

void AreaModel::add() {
  auto areas = m_areas;
  Area area;
  area.name = tr("area %1").arg(areas.size() + 1).toStdString();
  area.area_m2 = 0.01;
  areas.push_back(std::move(area));
  edits::setAreas(m_document, tr("add an area"), std::move(areas));
}

void AreaModel::remove(int row) {
  if (row < 0 || row >= rowCount()) return;
  auto areas = m_areas;
  areas.erase(areas.begin() + row);
  edits::setAreas(m_document, tr("remove an area"), std::move(areas));
}

int AreaModel::rowCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : static_cast<int>(m_areas.size()); }

int AreaModel::columnCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : static_cast<int>(ColumnCount); }

QVariant AreaModel::data(const QModelIndex& index, int role) const {
  if (!checkIndex(index, CheckIndexOption::IndexIsValid)) return {};
  const Area& area = m_areas[static_cast<std::size_t>(index.row())];
  if (role == Qt::DisplayRole || role == Qt::EditRole || role == Qt::ToolTipRole) return text(area, index.column());
  if (role == Qt::TextAlignmentRole && (index.column() == Size || index.column() == Tilt)) return int(Qt::AlignRight | Qt::AlignVCenter);
  return {};
}

QVariant AreaModel::headerData(int section, Qt::Orientation orientation, int role) const {
  if (orientation != Qt::Horizontal || role != Qt::DisplayRole) return {};
  const QStringList titles = {tr("Area"), tr("cm²"), tr("Tilt"), tr("Access")};
  return section >= 0 && section < titles.size() ? QVariant(titles[section]) : QVariant();
}

Qt::ItemFlags AreaModel::flags(const QModelIndex& index) const {
  return index.isValid() ? QAbstractTableModel::flags(index) | Qt::ItemIsEditable : Qt::NoItemFlags;
}

QString AreaModel::text(const Area& area, int column) const {
  switch (column) {
    case Name: return QString::fromStdString(area.name);
    case Size: return writeQuantity(Range::exact(area.area_m2), quantities::area);
    case Tilt: return withUnit(area.tilt_rad, quantities::angle);
    default: return accessWords().at(static_cast<int>(area.access));
  }
}

bool AreaModel::setData(const QModelIndex& index, const QVariant& value, int role) {
  if (role != Qt::EditRole || !checkIndex(index, CheckIndexOption::IndexIsValid)) return false;
  auto areas = m_areas;
  const QString sentence = write(areas[static_cast<std::size_t>(index.row())], index.column(), value.toString());
  emit problem(sentence);
  if (!sentence.isEmpty()) return false;
  edits::setAreas(m_document, tr("change an area"), std::move(areas));
  return true;
}

QString AreaModel::write(Area& area, int column, const QString& typed) const {
  if (column == Name) {
    if (typed.trimmed().isEmpty()) return tr("An area needs a name.");
    area.name = typed.trimmed().toStdString();
    return {};
  }
  if (column == AccessKind) {
    const auto at = accessWords().indexOf(typed);
    if (at < 0) return tr("Access is one of: %1.").arg(accessWords().join(QStringLiteral(", ")));
    area.access = static_cast<Access>(at);
    return {};
  }
  const bool isSize = column == Size;
  const TypedQuantity read = readQuantity(typed, isSize ? quantities::area : quantities::angle);
  if (!read.problem.isEmpty()) return read.problem;
  if (!read.value || !read.value->isExact()) return tr("Type one number.");
  const double number = read.value->likely;
  if (isSize && (number < smallestArea_m2 || number > largestArea_m2)) return tr("An area must lie between 0.01 cm² and 1000 m².");
  if (!isSize && (number < 0 || number > steepest_rad)) return tr("The tilt must lie between 0 and 80°.");
  (isSize ? area.area_m2 : area.tilt_rad) = number;
  return {};
}

}  // namespace bw
