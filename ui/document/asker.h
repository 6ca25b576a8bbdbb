// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>

#include <optional>

class QWidget;

namespace bw {

enum class UnsavedAnswer { Save, Discard, Cancel };

/// Every question that stops the work goes through here, so that a test can answer it.
class Asker {
 public:
  virtual ~Asker() = default;
  virtual UnsavedAnswer askUnsaved(const QString& projectName) = 0;
  virtual QString askOpenPath(const QString& folder) = 0;
  virtual QString askSavePath(const QString& proposal) = 0;
  /// A file to read.
  virtual QString askFile(const QString& title, const QString& folder, const QString& filter) = 0;
  enum class Existing { Allowed, Refused };
  /// A file to write or, where an existing one is allowed, to go on with: then nothing is asked about overwriting, and who calls sees to
  /// it.
  virtual QString askNewFile(const QString& title, const QString& proposal, const QString& filter, Existing existing) = 0;
  virtual std::optional<QString> askText(const QString& title, const QString& label, const QString& proposal) = 0;
  /// Yes or no; `yes` and `no` are the words on the buttons.
  virtual bool askYes(const QString& title, const QString& question, const QString& yes, const QString& no) = 0;
  /// A problem, why, and what to try.
  virtual void tell(const QString& title, const QString& sentence) = 0;
};

/// Asks with dialogs over `window`.
class DialogAsker : public Asker {
 public:
  explicit DialogAsker(QWidget* window) : m_window(window) {}
  UnsavedAnswer askUnsaved(const QString& projectName) override;
  QString askOpenPath(const QString& folder) override;
  QString askSavePath(const QString& proposal) override;
  QString askFile(const QString& title, const QString& folder, const QString& filter) override;
  QString askNewFile(const QString& title, const QString& proposal, const QString& filter, Existing existing) override;
  std::optional<QString> askText(const QString& title, const QString& label, const QString& proposal) override;
  bool askYes(const QString& title, const QString& question, const QString& yes, const QString& no) override;
  void tell(const QString& title, const QString& sentence) override;

 private:
  QWidget* m_window;
};

}  // namespace bw
