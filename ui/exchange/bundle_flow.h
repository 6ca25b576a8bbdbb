// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/asker.h"
#include "ui/exchange/bundle_jobs.h"
#include "ui/library/library_desk.h"

#include <QPointer>

namespace bw {

class ExportDialog;
class FindPanel;
class ImportDialog;
class LibraryFooter;

/// Giving away and bringing in, from the click to the sentence that says what was done. Dialogs open over the window and are answered when
/// the person likes; the library's own thread does the work.
class BundleFlow : public QObject {
  Q_OBJECT
 public:
  /// A bundle dropped on `window` is brought in.
  BundleFlow(LibraryDesk& desk, QWidget* window);

  void setAsker(Asker& asker) { m_asker = &asker; }
  /// Whose list can be given away, and whose buttons ask for it.
  void connectTo(FindPanel& find, LibraryFooter& footer);

  /// A recipe, or instead what is found now, or everything.
  void give(const Recipe& recipe);
  /// A thing of the shop, or instead everything.
  void give(EntryKind kind, const std::string& id, const QString& name);
  /// What is found now, or everything.
  void give();
  /// Asks for the file.
  void bringIn();
  void bringIn(const QString& file);

 signals:
  /// What came of it, in a sentence.
  void told(const QString& sentence);

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  void offer(const std::vector<GivenAway>& offered);
  void askExtent(ExportDialog* dialog);
  void write(ExportDialog* dialog);
  QString askWhere(const GivenAway& given);
  void read(ImportDialog* dialog);
  void compareAnew(ImportDialog* dialog);
  void apply(ImportDialog* dialog);
  void libraryChanged();
  QString whyNotWritable() const;

  LibraryDesk& m_desk;
  QWidget* m_window;
  FindPanel* m_find = nullptr;
  Asker* m_asker = nullptr;
  QPointer<ImportDialog> m_import;
  int m_extents = 0;  // asked for so far: only the newest counts
};

}  // namespace bw
