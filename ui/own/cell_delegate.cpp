// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/own/cell_delegate.h"

#include "ui/own/entry_model.h"
#include "ui/style/theme.h"

#include <QComboBox>
#include <QPainter>

namespace bw {

QWidget* CellDelegate::createEditor(QWidget* parent, const QStyleOptionViewItem& option, const QModelIndex& index) const {
  const QStringList words = index.data(EntryModel::WordsRole).toStringList();
  QWidget* editor = nullptr;
  if (words.isEmpty()) {
    editor = QStyledItemDelegate::createEditor(parent, option, index);
  } else {
    auto* box = new QComboBox(parent);
    box->addItems(words);
    editor = box;
  }
  if (editor) editor->setAccessibleName(index.model()->headerData(index.column(), Qt::Horizontal).toString());
  return editor;
}

void CellDelegate::setEditorData(QWidget* editor, const QModelIndex& index) const {
  if (auto* box = qobject_cast<QComboBox*>(editor))
    box->setCurrentText(index.data(Qt::EditRole).toString());
  else
    QStyledItemDelegate::setEditorData(editor, index);
}

void CellDelegate::setModelData(QWidget* editor, QAbstractItemModel* model, const QModelIndex& index) const {
  if (const auto* box = qobject_cast<QComboBox*>(editor))
    model->setData(index, box->currentText(), Qt::EditRole);
  else
    QStyledItemDelegate::setModelData(editor, model, index);
}

void CellDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const {
  QStyleOptionViewItem cell = option;
  cell.state &= ~QStyle::State_HasFocus;
  QStyledItemDelegate::paint(painter, cell, index);
  painter->save();
  const Tones tones = tonesOf(option.palette);
  if (index.data(EntryModel::HeadingRole).toBool()) {
    painter->setPen(QPen(tones.line, 1));
    painter->drawLine(option.rect.bottomLeft(), option.rect.bottomRight());
  }
  if (index.data(EntryModel::ProblemRole).toBool())
    painter->fillRect(QRect(option.rect.left(), option.rect.top(), space::edgeStripe, option.rect.height()),
                      stateColour(Status::Fails, option.palette));
  if (option.state & QStyle::State_HasFocus) {
    painter->setPen(QPen(tones.accent, 1));
    painter->drawRect(option.rect.adjusted(0, 0, -1, -1));
  }
  painter->restore();
}

QSize CellDelegate::sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const {
  QSize size = QStyledItemDelegate::sizeHint(option, index);
  size.rheight() = std::max(size.height() + 6, 26);
  return size;
}

void CellDelegate::updateEditorGeometry(QWidget* editor, const QStyleOptionViewItem& option, const QModelIndex&) const {
  QRect box = option.rect;
  box.setHeight(std::min(box.height(), 28));
  editor->setGeometry(box);
}

}  // namespace bw
