// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/asker.h"
#include "ui/own/entry_model.h"
#include "ui/own/own_things.h"

#include <QWidget>

class QLabel;
class QPushButton;
class QToolButton;

namespace bw {

class EntryView;
class ProblemLabel;

/// One coating, substrate or machine, to read or to change: shipped ones read-only until an own copy is made, which is saved as a whole.
class EntryEditor : public QWidget {
  Q_OBJECT
 public:
  EntryEditor(Asker*& asker, const OwnActions& actions, QWidget* parent = nullptr);

  /// Another entry, or the newest state of the one that is open. Changes that are not saved stay; a newer state is then offered.
  void open(const OwnedThings& things, EntryKind kind, const std::string& id);
  bool hasUnsaved() const { return m_model.isChanged() || m_ownBegun; }
  /// Does `go`, which opens something else: asks before where something would be lost, and saves first if that is wanted.
  void leave(const std::function<void()>& go);
  void setToday(const std::string& date) { m_today = date; }

  EntryModel& model() { return m_model; }
  EntryView* view() const { return m_view; }
  const std::string& id() const { return m_id; }

 signals:
  /// An entry of that id was asked to be saved and shall be shown when it is there.
  void wanted(bw::EntryKind kind, const QString& id);

 protected:
  bool event(QEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;

 private:
  void build();
  QPushButton* button(const char* name, const QString& text, const QString& tip, void (EntryEditor::*slot)());
  QToolButton* tool(const char* name, const QString& icon, const QString& tip);
  void makeCopy();
  void makeAnother();
  void save();
  void discard();
  void reset();
  void takeNewer();
  void give();
  void removePart();
  void refresh();
  QString standing() const;
  QString waiting() const;

  Asker*& m_asker;
  const OwnActions& m_actions;
  OwnedThings m_things;
  OwnRecord m_record;  // as it stands in the library
  std::optional<OwnRecord> m_newer;
  EntryKind m_kind = EntryKind::Coating;
  std::string m_id;
  std::string m_today;
  bool m_saving = false;
  bool m_ownBegun = false;        // a copy that is not saved yet
  std::function<void()> m_after;  // to be done once it is saved
  EntryModel m_model;
  QLabel* m_title;
  QLabel* m_standing;
  ProblemLabel* m_problem;
  EntryView* m_view;
  QPushButton *m_copy, *m_another, *m_save, *m_discard, *m_reset, *m_newerButton, *m_give;
  QToolButton *m_undo, *m_redo, *m_removePart;
  QWidget* m_parts;
};

}  // namespace bw
