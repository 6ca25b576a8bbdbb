// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/recipes/apply_dialog.h"

#include "ui/library/page_parts.h"
#include "ui/plan/form.h"
#include "ui/recipes/change_model.h"

#include <QDialogButtonBox>
#include <QHeaderView>
#include <QLabel>
#include <QPushButton>
#include <QTableView>
#include <QVBoxLayout>

namespace bw {
namespace {

QTableView* makeTable(ChangeModel* model) {
  auto* table = new QTableView;
  table->setObjectName(QStringLiteral("recipeChanges"));
  table->setAccessibleName(ApplyDialog::tr("What changes"));
  table->setModel(model);
  table->verticalHeader()->hide();
  table->horizontalHeader()->setSectionResizeMode(QHeaderView::Stretch);
  table->horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
  table->setEditTriggers(QAbstractItemView::NoEditTriggers);
  table->setSelectionBehavior(QAbstractItemView::SelectRows);
  table->setTabKeyNavigation(false);
  table->viewport()->setAttribute(Qt::WA_Hover, false);  // nothing happens by clicking there
  table->setShowGrid(false);
  table->setWordWrap(true);
  table->verticalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
  return table;
}

}  // namespace

ApplyDialog::ApplyDialog(const QString& recipe, const QString& plan, const AppliedRecipe& applied, const QStringList& warnings,
                         QWidget* parent)
    : QDialog(parent) {
  setObjectName(QStringLiteral("applyDialog"));
  setAttribute(Qt::WA_DeleteOnClose);
  setWindowTitle(tr("Apply to the open plan"));
  resize(680, 560);
  auto* model = new ChangeModel(this);
  model->setChanges(applied.changes);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(space::wide, space::wide, space::wide, space::large);
  column->setSpacing(space::medium);
  const bool nothing = applied.changes.empty() && applied.machines.empty();
  column->addWidget(parts::text(nothing ? tr("“%1” changes nothing in the plan “%2”: all is set so already.").arg(recipe, plan)
                                        : tr("“%1” changes this in the plan “%2”. One undo takes all of it back.").arg(recipe, plan)));
  if (!warnings.isEmpty()) column->addWidget(parts::note(warnings, Status::Near, QStringLiteral("applyWarnings")));
  column->addWidget(makeTable(model), 1);
  if (!applied.notes.isEmpty()) column->addWidget(parts::note(applied.notes, Status::NotKnown, QStringLiteral("applyNotes")));
  column->addWidget(new QuietLabel(
      applied.unchanged == 1 ? tr("One setting stays as it is; so do part, coat, hand and extraction.")
                             : tr("%1 settings stay as they are; so do part, coat, hand and extraction.").arg(applied.unchanged)));
  auto* buttons = new QDialogButtonBox;
  buttons->addButton(tr("Cancel"), QDialogButtonBox::RejectRole)->setAutoDefault(false);
  auto* apply = buttons->addButton(tr("Apply"), QDialogButtonBox::AcceptRole);
  apply->setObjectName(QStringLiteral("doIt"));
  apply->setProperty("primary", true);
  apply->setEnabled(!nothing);
  column->addWidget(buttons);
  apply->setDefault(true);  // once it is in the dialog, or Enter would press another
  apply->setFocus();
  connect(buttons, &QDialogButtonBox::accepted, this, &QDialog::accept);
  connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
}

}  // namespace bw
