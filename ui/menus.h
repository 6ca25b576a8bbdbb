// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/project_files.h"

#include <QMainWindow>

#include <functional>

namespace bw {

/// Builds the menus of a window; each function makes one and connects it to what it is given.
class Menus {
 public:
  explicit Menus(QMainWindow& window) : m_window(window) {}

  /// Returns the actions that lead to another part.
  QList<QAction*> addFile(ProjectFiles& files, const std::function<void()>& startNew);
  void addEdit(QAction* undo, QAction* redo, const std::function<void()>& beforeBeam);
  void addView(const std::function<void(int plot)>& showPlot);
  /// Adds the workspaces to the view's menu, and keeping the plan to the file's.
  void addWorkspaces(const std::function<void(int workspace)>& show, const std::function<void()>& keepPlan);
  /// Adds what the shop owns and how it usually is to the view's menu, below the workspaces.
  void addShop(const std::function<void()>& showOwn, const std::function<void()>& showShop);
  void addHelp(const std::function<void(const QString& title, const QString& text)>& tell,
               const std::function<void(const QString& file)>& openExample);
  /// The samples, as a menu of their own; once help is there.
  QAction* examples() const { return m_examples; }

 private:
  QMainWindow& m_window;
  QMenu* m_file = nullptr;
  QMenu* m_view = nullptr;
  QAction* m_examples = nullptr;
};

/// "light", "dark" or "system", as last chosen; applied to the whole program.
void applyChosenTheme();

}  // namespace bw
