// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/recipes/recipe_dialogs.h"

#include "ui/document/edits.h"
#include "ui/library/words_dialog.h"
#include "ui/readings/csv_dialog.h"
#include "ui/recipes/apply_dialog.h"
#include "ui/recipes/trial_form.h"

#include <QDate>
#include <QScrollArea>
#include <QStandardPaths>
#include <QTimer>

namespace bw {
namespace {

constexpr int newsInterval_ms = 200;

WordsDialog::Field field(const char* name, const QString& caption, const QString& proposal, bool needed, bool lines) {
  return {QLatin1String(name), caption, proposal, needed, lines, lines ? 0 : 200};
}

KeptWords wordsOf(const WordsDialog& dialog) {
  rememberInitials(dialog.text(QStringLiteral("initials")));
  return {dialog.text(QStringLiteral("name")).toStdString(), dialog.text(QStringLiteral("note")).toStdString(),
          dialog.text(QStringLiteral("initials")).toStdString()};
}

QWidget* scrolled(QWidget* widget) {
  auto* area = new QScrollArea;
  area->setFrameShape(QFrame::NoFrame);
  area->setWidgetResizable(true);
  area->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  area->setWidget(widget);
  area->setMinimumHeight(std::min(widget->sizeHint().height() + 4, 160));
  return area;
}

}  // namespace

RecipeDialogs::RecipeDialogs(ProjectDocument& document, LibraryDesk& desk, QWidget* window)
    : QObject(window), m_document(document), m_desk(desk), m_window(window) {}

OpenPlan RecipeDialogs::openPlan() const {
  return {std::make_shared<const Project>(m_document.project()), m_document.plan().name, m_assessment};
}

QString RecipeDialogs::assessmentMissing() const {
  return m_assessment ? QString() : tr("The plan is just being reckoned; its prediction belongs to the recipe. One moment.");
}

void RecipeDialogs::write(std::function<std::string(LibraryStore&)> work) {
  m_desk.write([this, work = std::move(work)](LibraryStore& store) -> LibraryDesk::Delivery {
    const QString id = QString::fromStdString(work(store));
    return [this, id] { emit saved(id); };
  });
}

namespace {

/// Looks again until what was missing is there.
void keepChecking(WordsDialog* dialog) {
  auto* news = new QTimer(dialog);
  QObject::connect(news, &QTimer::timeout, dialog, &WordsDialog::check);
  news->start(newsInterval_ms);
}

}  // namespace

void RecipeDialogs::keepPlan() {
  const Project& project = m_document.project();
  const QString proposal = tr("%1, %2").arg(QString::fromStdString(project.name), QString::fromStdString(m_document.plan().name));
  auto* dialog = new WordsDialog(
      tr("Keep this plan as a recipe"),
      tr("Part, coat, machine, settings and the prediction as it stands go into the library as a draft. The project's trials go along; "
         "mark the recipe as proven when they have shown that it works."),
      tr("Keep it"),
      {field("name", tr("Name"), proposal, true, false), field("note", tr("Note"), QString::fromStdString(project.notes), false, true),
       initialsField()},
      m_window);
  dialog->setObjectName(QStringLiteral("keepDialog"));
  dialog->demand([this] { return assessmentMissing(); });
  keepChecking(dialog);
  connect(dialog, &QDialog::accepted, this, [this, dialog] {
    write([open = openPlan(), words = wordsOf(*dialog)](LibraryStore& store) { return bw::keepPlan(store, open, words).id; });
  });
  dialog->open();
}

void RecipeDialogs::newVersion(const RecipeDetail& detail) {
  const RecipeVersion& version = detail.recipe.version;
  auto* dialog =
      new WordsDialog(tr("New version from this plan"),
                      tr("The open plan becomes version %1 of “%2”, a draft until it is proven. Version %3 stays readable with its proof.")
                          .arg(version.number + 1)
                          .arg(QString::fromStdString(version.name))
                          .arg(version.number),
                      tr("Save the version"),
                      {field("name", tr("Name"), QString::fromStdString(version.name), true, false),
                       field("note", tr("Note"), QString::fromStdString(version.note), false, true), initialsField()},
                      m_window);
  dialog->setObjectName(QStringLiteral("versionDialog"));
  dialog->demand([this] { return assessmentMissing(); });
  keepChecking(dialog);
  connect(dialog, &QDialog::accepted, this, [this, dialog, id = detail.recipe.id, number = version.number] {
    write([open = openPlan(), words = wordsOf(*dialog), id, number](LibraryStore& store) {
      return keepNewVersion(store, id, number, open, words).id;
    });
  });
  dialog->open();
}

void RecipeDialogs::prove(const RecipeDetail& detail) {
  const RecipeVersion& version = detail.recipe.version;
  auto* dialog =
      new WordsDialog(tr("Add a trial"),
                      tr("What “%1” did on a patch. A trial with these settings that cleared proves it, for this machine as it is "
                         "now and this model; any other trial is kept as well.")
                          .arg(QString::fromStdString(version.name)),
                      tr("Keep the trial"), {field("note", tr("Judgement"), QString(), false, true), initialsField()}, m_window);
  dialog->setObjectName(QStringLiteral("proveDialog"));
  auto* trials = new TrialChoice(version);
  dialog->insert(scrolled(trials));
  dialog->demand([trials] { return trials->missing(); });
  const auto follow = [dialog, trials] {
    dialog->sayDoIt(trials->proves() ? tr("Mark as proven") : tr("Keep the trial"), trials->outcome());
  };
  follow();
  connect(trials, &TrialChoice::changed, dialog, follow);
  connect(trials, &TrialChoice::fileWanted, this, [this, trials] { takeReadings(trials->form()); });
  connect(dialog, &QDialog::accepted, this, [this, dialog, trials, id = detail.recipe.id, version] {
    const KeptWords words = wordsOf(*dialog);
    const Judgement judgement{trials->trials(words.initials), QDate::currentDate().toString(Qt::ISODate).toStdString(), words.initials,
                              words.note, trials->form()->files()};
    write([id, number = version.number, judgement](LibraryStore& store) { return keepTrials(store, id, number, judgement).id; });
  });
  dialog->open();
}

void RecipeDialogs::takeReadings(TrialForm* form) {
  const QString path = m_asker->askFile(tr("Readings from a file"), QStandardPaths::writableLocation(QStandardPaths::DocumentsLocation),
                                        tr("Tables (*.csv *.txt *.tsv);;All files (*)"));
  if (path.isEmpty()) return;
  auto* dialog = new CsvDialog(path, form->window());
  connect(dialog, &QDialog::accepted, form, [form, dialog] {
    const QString name = dialog->reader().name();
    std::optional<KeptFile> file;
    if (dialog->keepsFile())
      file = KeptFile{dialog->reader().study().bytes, name.toStdString(), tr("readings from %1").arg(name).toStdString()};
    form->take(dialog->readings(), name, file);
  });
  dialog->open();
}

void RecipeDialogs::withdraw(const RecipeDetail& detail) {
  auto* dialog = new WordsDialog(tr("Withdraw the recipe"),
                                 tr("“%1” stays in the library with the reason, so that nobody tries it again.")
                                     .arg(QString::fromStdString(detail.recipe.version.name)),
                                 tr("Withdraw"), {field("reason", tr("Reason"), QString(), true, true), initialsField()}, m_window);
  dialog->setObjectName(QStringLiteral("withdrawDialog"));
  connect(dialog, &QDialog::accepted, this, [this, dialog, id = detail.recipe.id, number = detail.recipe.version.number] {
    const KeptWords words = wordsOf(*dialog);
    write([id, number, reason = dialog->text(QStringLiteral("reason")).toStdString(), words](LibraryStore& store) {
      bw::withdraw(store, id, number, reason, words.initials);
      return id;
    });
  });
  dialog->open();
}

void RecipeDialogs::takeBack(const RecipeDetail& detail) {
  auto* dialog = new WordsDialog(tr("Take the withdrawal back"),
                                 tr("“%1” counts again: as proven where it was judged, else as a draft. It was withdrawn for: %2")
                                     .arg(QString::fromStdString(detail.recipe.version.name), QString::fromStdString(detail.recipe.reason)),
                                 tr("Take it back"), {initialsField()}, m_window);
  dialog->setObjectName(QStringLiteral("takeBackDialog"));
  connect(dialog, &QDialog::accepted, this, [this, dialog, id = detail.recipe.id, number = detail.recipe.version.number] {
    write([id, number, words = wordsOf(*dialog)](LibraryStore& store) {
      bw::takeBack(store, id, number, words.initials);
      return id;
    });
  });
  dialog->open();
}

void RecipeDialogs::addPhoto(const RecipeDetail& detail) {
  const QString file = m_asker->askFile(tr("Add a photo"), QStandardPaths::writableLocation(QStandardPaths::PicturesLocation),
                                        tr("Pictures (*.jpg *.jpeg *.png *.webp *.bmp *.tif *.tiff);;All files (*)"));
  if (file.isEmpty()) return;
  auto* dialog = new WordsDialog(tr("Add a photo"), tr("%1 is copied beside the library.").arg(file), tr("Add it"),
                                 {field("note", tr("What it shows"), QString(), false, false), initialsField()}, m_window);
  dialog->setObjectName(QStringLiteral("photoDialog"));
  connect(dialog, &QDialog::accepted, this, [this, dialog, file, id = detail.recipe.id, number = detail.recipe.version.number] {
    write([id, number, file, words = wordsOf(*dialog)](LibraryStore& store) {
      return bw::addPhoto(store, id, number, file, words.note, words.initials).id;
    });
  });
  dialog->open();
}

void RecipeDialogs::apply(const RecipeDetail& detail) {
  const QString name = QString::fromStdString(detail.shown.name);
  QStringList warnings;
  if (detail.recipe.state == RecipeState::Withdrawn) {
    warnings << tr("It was withdrawn: %1").arg(QString::fromStdString(detail.recipe.reason));
  } else if (!isJudged(detail.shown.proof)) {
    warnings << tr("Planned, not proven.");
  } else if (!detail.stale.empty()) {
    warnings << tr("Its proof is stale.");
  }
  applyVersion(detail.shown, tr("apply the recipe “%1”").arg(name), warnings, m_window);
}

void RecipeDialogs::applyVersion(const RecipeVersion& version, const QString& undo, QStringList warnings, QWidget* over) {
  warnings << tr("It was made for its own part and coat. The plan is assessed anew for the open one; a patch on a hidden spot decides.");
  auto* dialog = new ApplyDialog(QString::fromStdString(version.name), QString::fromStdString(m_document.plan().name),
                                 appliedTo(m_document.project(), m_document.plan(), version), warnings, over);
  // What is done is what was shown: any edit meanwhile closes it.
  connect(&m_document, &ProjectDocument::changed, dialog, [dialog](Changes changes) {
    if (changes != Changes(Change::File)) dialog->reject();
  });
  connect(dialog, &QDialog::accepted, this, [this, dialog, undo, version] {
    m_document.disconnect(dialog);
    const AppliedRecipe applied = appliedTo(m_document.project(), m_document.plan(), version);
    edits::applyPlan(m_document, undo, applied.machines, applied.plan);
    emit this->applied();
  });
  dialog->open();
}

}  // namespace bw
