// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/recipes/recipe_delegate.h"

#include "ui/library/recipe_words.h"
#include "ui/style/theme.h"

#include <QPainter>
#include <QPixmap>

#include <cmath>

namespace bw {
namespace {

constexpr int thumbWidth = 30;
constexpr int mark = 13;

void paintTick(QPainter& painter, const QRectF& box) {
  painter.setPen(QPen(Qt::white, box.width() * 0.13, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
  const auto at = [&](double x, double y) { return QPointF(box.left() + x * box.width(), box.top() + y * box.height()); };
  painter.drawPolyline(QPolygonF{at(0.28, 0.52), at(0.44, 0.68), at(0.73, 0.34)});
}

void paintCross(QPainter& painter, const QRectF& box, const QColor& colour) {
  const QRectF square = box.adjusted(box.width() * 0.1, box.height() * 0.1, -box.width() * 0.1, -box.height() * 0.1);
  painter.setPen(QPen(colour, box.width() * 0.13));
  painter.setBrush(Qt::NoBrush);
  painter.drawRect(square);
  painter.drawLine(square.topLeft(), square.bottomRight());
  painter.drawLine(square.topRight(), square.bottomLeft());
}

/// The lines under a row's name, top to bottom; the last one may be longer.
QStringList linesOf(const RecipeListModel::Item& item) {
  QStringList lines{workWords(item)};
  if (item.found.row.state == RecipeState::Withdrawn && !item.found.row.reason.empty()) {
    lines << QString::fromStdString(item.found.row.reason);
  } else if (item.found.distance) {
    lines << nearWords(item.found);
  } else {
    QStringList layers;
    for (const LayerPicture& layer : item.layers) layers << layer.words.section(QLatin1Char(','), 0, 0).section(QStringLiteral(": "), 0, 0);
    lines << layers.join(QStringLiteral(", "));
  }
  return lines;
}

}  // namespace

void paintRecipeState(QPainter& painter, const QRectF& box, RecipeState state, bool stale, const QPalette& palette) {
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  const QRectF disc = box.adjusted(box.width() * 0.08, box.height() * 0.08, -box.width() * 0.08, -box.height() * 0.08);
  if (state == RecipeState::Withdrawn) {
    paintCross(painter, box, stateColour(Status::Fails, palette));
  } else if (state == RecipeState::Proven && stale) {
    paintState(painter, box, Status::Near, palette);
  } else if (state == RecipeState::Proven) {
    painter.setPen(Qt::NoPen);
    painter.setBrush(stateColour(Status::Meets, palette));
    painter.drawEllipse(disc);
    paintTick(painter, box);
  } else {
    painter.setPen(QPen(stateColour(Status::NotKnown, palette), box.width() * 0.13, Qt::DotLine));
    painter.setBrush(Qt::NoBrush);
    painter.drawEllipse(disc);
  }
  painter.restore();
}

QPixmap recipeStatePixmap(RecipeState state, bool stale, int side_px, const QPalette& palette, double devicePixelRatio) {
  const int side = static_cast<int>(std::ceil(side_px * devicePixelRatio));
  QPixmap pixmap(side, side);
  pixmap.setDevicePixelRatio(devicePixelRatio);
  pixmap.fill(Qt::transparent);
  QPainter painter(&pixmap);
  paintRecipeState(painter, QRectF(0, 0, side_px, side_px), state, stale, palette);
  return pixmap;
}

QSize RecipeDelegate::sizeHint(const QStyleOptionViewItem& option, const QModelIndex&) const {
  return {200, 3 * (option.fontMetrics.height() + 3) + 2 * space::medium};
}

void RecipeDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const {
  const auto* model = qobject_cast<const RecipeListModel*>(index.model());
  if (!model) return;
  const RecipeListModel::Item& item = model->item(index.row());
  const RecipeState state = item.found.row.state;
  const Tones tones = tonesOf(option.palette);
  painter->save();
  const bool selected = option.state & QStyle::State_Selected;
  painter->fillRect(option.rect, selected ? option.palette.color(QPalette::AlternateBase) : tones.sheet);
  if (selected) painter->fillRect(QRect(option.rect.left(), option.rect.top(), 3, option.rect.height()), tones.accent);
  painter->setPen(tones.line);
  painter->drawLine(option.rect.bottomLeft(), option.rect.bottomRight());
  if ((option.state & QStyle::State_HasFocus) && selected) {
    painter->setPen(tones.accent);
    painter->drawRect(option.rect.adjusted(0, 0, -1, -1));
  }
  const QRect inner = option.rect.adjusted(space::large, space::medium, -space::large, -space::medium);
  paintCoat(*painter, QRectF(inner.left() + 0.5, inner.top() + 0.5, thumbWidth, inner.height() - 1), item.layers, option.palette);

  const int row = option.fontMetrics.height() + 3;
  const QRect text = inner.adjusted(thumbWidth + space::large, 0, 0, 0);
  const QString word = words::state(state, item.stale);
  const int wordWidth = option.fontMetrics.horizontalAdvance(word) + 2;
  const QRect wordBox(text.right() - wordWidth, text.top(), wordWidth, row);
  paintRecipeState(*painter, QRectF(wordBox.left() - mark - 5, text.top() + (row - mark) / 2.0, mark, mark), state, item.stale,
                   option.palette);
  painter->setFont(option.font);
  painter->setPen(tones.ink);
  painter->drawText(wordBox, Qt::AlignLeft | Qt::AlignVCenter, word);
  QFont bold = option.font;
  bold.setBold(true);
  painter->setFont(bold);
  const QRect nameBox(text.left(), text.top(), wordBox.left() - mark - 5 - space::medium - text.left(), row);
  painter->drawText(nameBox, Qt::AlignLeft | Qt::AlignVCenter,
                    QFontMetrics(bold).elidedText(QString::fromStdString(item.found.row.name), Qt::ElideRight, nameBox.width()));
  painter->setFont(option.font);
  painter->setPen(selected ? tones.ink : tones.quiet);
  int top = text.top() + row;
  for (const QString& line : linesOf(item)) {
    painter->drawText(QRect(text.left(), top, text.width(), row), Qt::AlignLeft | Qt::AlignVCenter,
                      option.fontMetrics.elidedText(line, Qt::ElideRight, text.width()));
    top += row;
  }
  painter->restore();
}

}  // namespace bw
