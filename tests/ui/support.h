// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/asker.h"
#include "ui/main_window.h"
#include "ui/style/theme.h"

#include <QStringList>
#include <QTemporaryDir>

#include <deque>

namespace bw {
class QuantityField;
}

namespace bw::test {

/// Theme and a font that is the same everywhere.
void useStableLook(Theme theme);

/// Answers questions from a list, and keeps what was told.
class ScriptedAsker : public Asker {
 public:
  std::deque<UnsavedAnswer> unsaved;
  std::deque<QString> paths;
  std::deque<QString> texts;
  std::deque<bool> yes;
  QStringList told;
  int unsavedAsked = 0;

  UnsavedAnswer askUnsaved(const QString& projectName) override;
  QString askOpenPath(const QString& folder) override;
  QString askSavePath(const QString& proposal) override;
  QString askFile(const QString& title, const QString& folder, const QString& filter) override;
  QString askNewFile(const QString& title, const QString& proposal, const QString& filter, Existing existing) override;
  std::optional<QString> askText(const QString& title, const QString& label, const QString& proposal) override;
  bool askYes(const QString& title, const QString& question, const QString& yesWord, const QString& noWord) override;
  void tell(const QString& title, const QString& sentence) override;
};

/// Calculations that take no time: the settings show in the results, and one remedy is always at hand.
AssessmentRunner::Model quickModel();

QString dataFile(const QString& name);
Project panel();

/// A shown window with the panel open, whose dialogs are answered by `asker` and whose recovery copies go to a folder of its own.
class Window {
 public:
  explicit Window(AssessmentRunner::Model model = quickModel());
  ~Window();

  MainWindow* operator->() { return m_window.get(); }
  ProjectDocument& document() { return m_window->document(); }
  /// Waits until the newest snapshot is assessed and shown.
  void settle();
  void crash();  // goes away without the tidying of a clean exit

  template <typename T>
  T* find(const char* name) {
    return m_window->findChild<T*>(QLatin1String(name));
  }
  QuantityField* field(const char* name);
  /// Clicks into the field, types over what stands there and presses Enter.
  void type(QuantityField* field, const QString& text);
  void click(QWidget* button);
  QString recoveryFolder() const { return m_folder.path(); }
  QString libraryPath() const { return m_folder.filePath(QStringLiteral("library.sqlite")); }

  ScriptedAsker asker;

 private:
  QTemporaryDir m_folder;
  std::unique_ptr<MainWindow> m_window;
};

}  // namespace bw::test
