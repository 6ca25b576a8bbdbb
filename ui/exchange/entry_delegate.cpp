// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/exchange/entry_delegate.h"

#include "ui/exchange/import_model.h"
#include "ui/style/theme.h"

#include <QPainter>

namespace bw {

void EntryDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const {
  const auto* model = qobject_cast<const ImportModel*>(index.model());
  const bool selected = option.state & QStyle::State_Selected, open = model && model->isOpen(index.row());
  const Tones tones = tonesOf(option.palette);
  painter->save();
  if (selected) painter->fillRect(option.rect, option.palette.color(QPalette::AlternateBase));
  if (open)
    painter->fillRect(QRect(option.rect.topLeft(), QSize(space::edgeStripe, option.rect.height())),
                      stateColour(Status::Near, option.palette));
  QFont font = option.font;
  font.setBold(open);
  painter->setFont(font);
  const QFontMetrics metrics(font);
  QRect line = option.rect.adjusted(space::edgeStripe + space::small, 0, -space::small, 0);
  line.setTop(option.rect.center().y() - metrics.height());
  line.setHeight(metrics.height());
  const auto write = [&](const QString& text, const QColor& ink) {
    painter->setPen(ink);
    painter->drawText(line, Qt::AlignLeft | Qt::AlignVCenter, metrics.elidedText(text, Qt::ElideRight, line.width()));
    line.translate(0, metrics.height());
  };
  write(index.data().toString(), tones.ink);
  painter->setFont(option.font);
  write(index.siblingAtColumn(ImportModel::State).data().toString(), tones.quiet);
  if (option.state & QStyle::State_HasFocus) {
    painter->setPen(QPen(tones.accent, 1));
    painter->drawRect(option.rect.adjusted(0, 0, -1, -1));
  }
  painter->restore();
}

}  // namespace bw
