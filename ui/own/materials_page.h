// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/asker.h"
#include "ui/own/own_things.h"

#include <QSplitter>

class QLineEdit;
class QListView;

namespace bw {

class EntryEditor;
class EntryListModel;

/// Coatings or substrates: a list with a search, and the chosen one to read or change.
class MaterialsPage : public QSplitter {
  Q_OBJECT
 public:
  MaterialsPage(EntryKind kind, Asker*& asker, const OwnActions& actions, QWidget* parent = nullptr);
  void setThings(const OwnedThings& things);
  void choose(const std::string& id);
  EntryEditor* editor() const { return m_editor; }
  QListView* list() const { return m_list; }

 private:
  void chosen(int row);

  EntryKind m_kind;
  OwnedThings m_things;
  std::string m_id;
  std::string m_wanted;  // to be shown when it comes
  bool m_quiet = false;  // the list follows, nobody chose
  EntryListModel* m_model;
  QLineEdit* m_search;
  QListView* m_list;
  EntryEditor* m_editor;
};

}  // namespace bw
