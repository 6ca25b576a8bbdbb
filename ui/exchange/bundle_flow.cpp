// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/exchange/bundle_flow.h"

#include "ui/exchange/exchange_words.h"
#include "ui/exchange/export_dialog.h"
#include "ui/exchange/import_dialog.h"
#include "ui/library/library_band.h"
#include "ui/recipes/find_panel.h"

#include <QDateTime>
#include <QDir>
#include <QDragEnterEvent>
#include <QFileInfo>
#include <QMimeData>
#include <QRegularExpression>
#include <QSettings>
#include <QStandardPaths>

#include <new>
#include <type_traits>

namespace bw {
namespace {

const QString folderKey = QStringLiteral("exchange/folder");
const QString ending = QStringLiteral("bwbundle");

QString filter() { return BundleFlow::tr("Barewright bundles (*.bwbundle *.json);;All files (*)"); }

QString lastFolder() {
  const QString documents = QStandardPaths::writableLocation(QStandardPaths::DocumentsLocation);
  const QString folder = QSettings().value(folderKey, documents).toString();
  return QFileInfo(folder).isDir() ? folder : documents;
}

void rememberFolder(const QString& file) { QSettings().setValue(folderKey, QFileInfo(file).absolutePath()); }

/// A name that every file system takes.
QString proposedName(const GivenAway& given) {
  QString name = given.name.simplified();
  name.replace(QRegularExpression(QStringLiteral("[^\\w\\- ]")), QStringLiteral("-"));
  if (name.isEmpty()) name = BundleFlow::tr("recipes %1").arg(QDate::currentDate().toString(Qt::ISODate));
  return name.left(80).trimmed().replace(QLatin1Char(' '), QLatin1Char('-')) + QLatin1Char('.') + ending;
}

/// The bundle among what is dragged; empty: none, or more than one file.
QString draggedBundle(const QMimeData* data) {
  const QList<QUrl> urls = data->urls();
  if (urls.size() != 1 || !urls[0].isLocalFile()) return {};
  const QString file = urls[0].toLocalFile(), suffix = QFileInfo(file).suffix().toLower();
  return suffix == ending || suffix == QStringLiteral("json") ? file : QString();
}

QString sentenceOf(const std::exception& error) { return QString::fromUtf8(error.what()); }

QString noMemory() { return BundleFlow::tr("The computer has not enough memory for a bundle of this size; nothing was changed."); }

/// Does `work` on the desk's thread; what goes wrong comes as a sentence. Damage goes on to the desk, which knows of backups.
template <class Work, class Then, class Else>
LibraryDesk::Work answered(Work work, Then then, Else otherwise) {
  return [=](LibraryStore& store) -> LibraryDesk::Delivery {
    try {
      const auto result = std::make_shared<const std::invoke_result_t<Work, LibraryStore&>>(work(store));
      return [then, result] { then(result); };
    } catch (const LibraryError& error) {
      if (error.trouble() == LibraryTrouble::Corrupt) throw;
      return [otherwise, trouble = error.trouble(), sentence = sentenceOf(error)] { otherwise(trouble, sentence); };
    } catch (const std::bad_alloc&) {
      return [otherwise] { otherwise(LibraryTrouble::Refused, noMemory()); };
    } catch (const std::exception& error) {
      return [otherwise, sentence = sentenceOf(error)] { otherwise(LibraryTrouble::Refused, sentence); };
    }
  };
}

}  // namespace

BundleFlow::BundleFlow(LibraryDesk& desk, QWidget* window) : QObject(window), m_desk(desk), m_window(window) {
  window->setAcceptDrops(true);
  window->installEventFilter(this);
  connect(&desk, &LibraryDesk::libraryChanged, this, &BundleFlow::libraryChanged);
}

bool BundleFlow::eventFilter(QObject* watched, QEvent* event) {
  if (watched == m_window && m_desk.state().open) {
    if (event->type() == QEvent::DragEnter || event->type() == QEvent::Drop) {
      auto* drop = static_cast<QDropEvent*>(event);  // what enters is one too
      if (const QString file = draggedBundle(drop->mimeData()); !file.isEmpty()) {
        drop->acceptProposedAction();
        if (event->type() == QEvent::Drop) bringIn(file);
        return true;
      }
    }
  }
  return QObject::eventFilter(watched, event);
}

void BundleFlow::connectTo(FindPanel& find, LibraryFooter& footer) {
  m_find = &find;
  connect(&footer, &LibraryFooter::giveChosen, this, [this] { give(); });
  connect(&footer, &LibraryFooter::bringInChosen, this, [this] { bringIn(); });
}

void BundleFlow::give(const Recipe& recipe) {
  const QString name = QString::fromStdString(recipe.version.name);
  offer({{GivenAway::What::Recipe, recipe.id, {}, name, {}}, {GivenAway::What::Found, {}, {}, {}, m_find->wanted()}, {}});
}

void BundleFlow::give(EntryKind kind, const std::string& id, const QString& name) {
  offer({{GivenAway::What::Entry, id, kind, name, {}}, {}});
}

void BundleFlow::give() {
  const GivenAway found{GivenAway::What::Found, {}, {}, {}, m_find->wanted()}, everything;
  const bool fewer = m_find->narrowed() || m_find->isNearest();
  offer(fewer ? std::vector{found, everything} : std::vector{everything, found});
}

void BundleFlow::offer(const std::vector<GivenAway>& offered) {
  if (!m_desk.state().open || offered.empty()) return;
  auto* dialog = new ExportDialog(offered, m_window);
  connect(dialog, &ExportDialog::extentWanted, this, [this, dialog] { askExtent(dialog); });
  connect(dialog, &ExportDialog::writeWanted, this, [this, dialog] { write(dialog); });
  connect(&m_desk, &LibraryDesk::failed, dialog, &QDialog::reject);  // what is the matter stands in the band
  dialog->open();
  askExtent(dialog);
}

void BundleFlow::askExtent(ExportDialog* dialog) {
  const int number = ++m_extents;
  m_desk.ask(LibraryDesk::Lane::Each,
             answered([given = dialog->chosen()](LibraryStore& store) { return extentOf(store, choiceOf(store, given)); },
                      [this, number, dialog = QPointer(dialog)](const std::shared_ptr<const ExportExtent>& extent) {
                        if (dialog && number == m_extents) dialog->showExtent(*extent);
                      },
                      [dialog = QPointer(dialog)](LibraryTrouble, const QString& sentence) {
                        if (dialog) dialog->showProblem(sentence);
                      }));
}

QString BundleFlow::askWhere(const GivenAway& given) {
  QString file =
      m_asker->askNewFile(tr("Write the bundle"), QDir(lastFolder()).filePath(proposedName(given)), filter(), Asker::Existing::Allowed);
  if (file.isEmpty()) return {};
  if (QFileInfo(file).suffix().isEmpty()) file += QLatin1Char('.') + ending;
  file = QFileInfo(file).absoluteFilePath();
  const bool replace = !QFileInfo::exists(file) || m_asker->askYes(tr("Replace the file"), tr("%1 is there already. Replace it?").arg(file),
                                                                   tr("Replace it"), tr("Keep it"));
  return replace ? file : QString();
}

void BundleFlow::write(ExportDialog* dialog) {
  const QString file = askWhere(dialog->chosen());
  if (file.isEmpty()) return;
  rememberFolder(file);
  BundleWords words = dialog->words();
  words.madeAt = QDateTime::currentDateTimeUtc().toString(Qt::ISODate).toStdString();
  dialog->setWorking(true);
  m_desk.ask(LibraryDesk::Lane::Each,
             answered(
                 [given = dialog->chosen(), attachments = dialog->attachments(), words, file](LibraryStore& store) {
                   ExportChoice choice = choiceOf(store, given);
                   choice.attachments = attachments;
                   return bw::giveAway(store, choice, words, file);
                 },
                 [this, dialog = QPointer(dialog)](const std::shared_ptr<const WrittenBundle>& written) {
                   if (!dialog) return emit told(words::written(*written));
                   dialog->setWorking(false);
                   dialog->showWritten(*written);
                 },
                 [this, dialog = QPointer(dialog)](LibraryTrouble, const QString& sentence) {
                   if (!dialog) return emit told(tr("The bundle was not written: %1").arg(sentence));
                   dialog->setWorking(false);
                   dialog->showProblem(sentence);
                 }));
}

void BundleFlow::bringIn() {
  const QString file = m_asker->askFile(tr("Bring in a bundle"), lastFolder(), filter());
  if (!file.isEmpty()) bringIn(file);
}

QString BundleFlow::whyNotWritable() const {
  const LibraryState& state = m_desk.state();
  if (state.invented) return tr("Invented examples are to read; go back to your library to bring something in.");
  return state.readOnly ? tr("Your library may be read but not written, so this is only to look at.") : QString();
}

void BundleFlow::bringIn(const QString& file) {
  if (!m_desk.state().open) return;
  rememberFolder(file);
  if (m_import) m_import->close();  // one at a time
  auto* dialog = new ImportDialog(file, whyNotWritable(), m_window);
  m_import = dialog;
  connect(dialog, &ImportDialog::bringInWanted, this, [this, dialog] { apply(dialog); });
  connect(dialog, &ImportDialog::anotherWanted, this, [this, dialog] {
    dialog->close();
    bringIn();
  });
  connect(&m_desk, &LibraryDesk::failed, dialog, [this, dialog] {  // what is the matter stands in the band
    if (dialog->isWorking() || !dialog->prepared() || !m_desk.state().open) dialog->reject();
  });
  dialog->open();
  read(dialog);
}

void BundleFlow::read(ImportDialog* dialog) {
  m_desk.ask(LibraryDesk::Lane::Each, answered([file = dialog->file()](LibraryStore& store) { return prepareImport(store, file); },
                                               [dialog = QPointer(dialog)](const std::shared_ptr<const PreparedImport>& prepared) {
                                                 if (dialog) dialog->showPlan(prepared);
                                               },
                                               [dialog = QPointer(dialog)](LibraryTrouble, const QString& sentence) {
                                                 if (dialog) dialog->showUnusable(sentence);
                                               }));
}

/// The library is no longer as it was when all was compared.
void BundleFlow::compareAnew(ImportDialog* dialog) {
  m_desk.ask(LibraryDesk::Lane::Each,
             answered([bundle = dialog->prepared()->plan.bundle](LibraryStore& store) { return prepareAgain(store, bundle); },
                      [dialog = QPointer(dialog)](const std::shared_ptr<const PreparedImport>& prepared) {
                        if (dialog && !dialog->isWorking()) dialog->showPlan(prepared);
                      },
                      [dialog = QPointer(dialog)](LibraryTrouble, const QString& sentence) {
                        if (dialog) dialog->showProblem(sentence);
                      }));
}

void BundleFlow::libraryChanged() {
  if (m_import && m_import->prepared() && !m_import->isWorking()) compareAnew(m_import);
}

void BundleFlow::apply(ImportDialog* dialog) {
  dialog->setWorking(true);
  m_desk.write(answered([prepared = dialog->prepared(), decisions = dialog->model()->decisions()](
                            LibraryStore& store) { return applyImport(store, prepared->plan, decisions); },
                        [this, dialog = QPointer(dialog), file = dialog->file()](const std::shared_ptr<const ImportOutcome>& outcome) {
                          if (dialog) dialog->accept();
                          emit told(words::broughtIn(file, *outcome));
                        },
                        [this, dialog = QPointer(dialog)](LibraryTrouble trouble, const QString& sentence) {
                          if (!dialog) return emit told(tr("Nothing came in: %1").arg(sentence));
                          dialog->setWorking(false);
                          if (trouble != LibraryTrouble::Conflict) return dialog->showProblem(tr("Nothing came in: %1").arg(sentence));
                          compareAnew(dialog);
                        }));
}

}  // namespace bw
