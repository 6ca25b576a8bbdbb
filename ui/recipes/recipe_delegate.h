// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/recipe.h"
#include "ui/recipes/recipe_list_model.h"

#include <QStyledItemDelegate>

namespace bw {

/// The shape of a state, readable without colour: a ring for a draft, a filled disc with a tick for a proven one, a triangle where the
/// proof went stale, a crossed box for a withdrawn one.
void paintRecipeState(QPainter& painter, const QRectF& box, RecipeState state, bool stale, const QPalette& palette);
QPixmap recipeStatePixmap(RecipeState state, bool stale, int side_px, const QPalette& palette, double devicePixelRatio);

/// A row of the list: a small cross-section, the name, the state by shape and word, and what it was for.
class RecipeDelegate : public QStyledItemDelegate {
  Q_OBJECT
 public:
  explicit RecipeDelegate(QObject* parent = nullptr) : QStyledItemDelegate(parent) {}
  void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override;
  QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override;
};

}  // namespace bw
