// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/carry/carry_flow.h"

#include "ui/library/words_dialog.h"

namespace bw {

CarryFlow::CarryFlow(ProjectDocument& document, LibraryDesk& desk, RecipeDialogs& dialogs, AssessmentRunner::Model model, QWidget* window)
    : QObject(window), m_document(document), m_desk(desk), m_dialogs(dialogs), m_model(std::move(model)), m_window(window) {
  connect(&m_dialogs, &RecipeDialogs::applied, this, [this] {
    if (m_dialog) m_dialog->accept();  // the effect shows behind it
  });
}

/// Machines may have been changed since the library was opened, so it is asked for them.
void CarryFlow::begin(const RecipeDetail& detail) {
  m_desk.ask(LibraryDesk::Lane::Each, [this, detail](LibraryStore& store) -> LibraryDesk::Delivery {
    return [this, detail, machines = store.machines()] { open(detail, machines); };
  });
}

void CarryFlow::open(const RecipeDetail& detail, const CarryDialog::Machines& machines) {
  if (m_dialog) return;
  m_dialog = new CarryDialog(detail.shown, machines, m_document.plan().machine, m_model, m_window);
  const LibraryState& state = m_desk.state();
  m_dialog->setWritable(state.open && !state.readOnly, state.invented ? tr("Invented examples are to read; your own library takes recipes.")
                                                                      : tr("The library may be read but not written."));
  connect(m_dialog, &CarryDialog::keepChosen, this, &CarryFlow::keep);
  connect(m_dialog, &CarryDialog::applyChosen, this, [this, detail] { apply(detail); });
  m_dialog->open();
}

void CarryFlow::keep() {
  const CarryWork& work = m_dialog->work();
  if (!work.after()) return;
  const QString machine = QString::fromStdString(work.machine()->name);
  const RecipeVersion& version = work.after()->version;
  auto* words = new WordsDialog(
      tr("Keep as a new recipe"),
      tr("It goes into the library as a draft with its prediction. It is not proven on the %1; mark it so when a trial there has shown it.")
          .arg(machine),
      tr("Keep it"),
      {{QStringLiteral("name"), tr("Name"), tr("%1, on the %2").arg(QString::fromStdString(version.name), machine).left(200), true, false,
        200},
       {QStringLiteral("note"), tr("Note"), QString::fromStdString(version.note), false, true, 0},
       initialsField()},
      m_dialog);
  words->setObjectName(QStringLiteral("carryKeepDialog"));
  const auto missing = [this, &work] {
    return work.forecastAfter().complete ? QString() : tr("It is just being reckoned; its prediction belongs to the recipe. One moment.");
  };
  words->demand(missing);
  connect(&work, &CarryWork::forecast, words, &WordsDialog::check);
  connect(words, &QDialog::accepted, this, [this, words, carried = work.after(), &work] {
    rememberInitials(words->text(QStringLiteral("initials")));
    write(*carried, work.forecastAfter().prediction,
          {words->text(QStringLiteral("name")).toStdString(), words->text(QStringLiteral("note")).toStdString(),
           words->text(QStringLiteral("initials")).toStdString()});
  });
  words->open();
}

void CarryFlow::write(const CarriedRecipe& carried, const Prediction& prediction, const KeptWords& words) {
  Recipe recipe;
  recipe.version = carried.version;
  recipe.version.name = words.name;
  recipe.version.note = words.note;
  recipe.version.savedBy = words.initials;
  recipe.version.predicted = prediction;
  m_desk.write([this, recipe](LibraryStore& store) -> LibraryDesk::Delivery {
    const QString id = QString::fromStdString(store.saveRecipe(recipe).id);
    return [this, id, name = QString::fromStdString(recipe.version.name)] {
      if (m_dialog) m_dialog->say(tr("Kept as “%1”, a draft.").arg(name));
      emit saved(id);
    };
  });
}

void CarryFlow::apply(const RecipeDetail& detail) {
  const CarryWork& work = m_dialog->work();
  if (!work.after()) return;
  const QString machine = QString::fromStdString(work.machine()->name), name = QString::fromStdString(detail.shown.name);
  QStringList warnings;
  if (detail.recipe.state == RecipeState::Withdrawn)
    warnings << tr("The recipe was withdrawn: %1").arg(QString::fromStdString(detail.recipe.reason));
  warnings << tr("Planned, not proven on the %1.").arg(machine);
  m_dialogs.applyVersion(work.after()->version, tr("apply the recipe “%1” on the %2").arg(name, machine), warnings, m_dialog);
}

}  // namespace bw
