/** Tasks that run `lugwork check`; the command travels with the extension, so nothing need be installed for it. */
import {
  ProcessExecution,
  Task,
  TaskGroup,
  tasks,
  TaskScope,
  workspace,
  type Disposable,
  type TaskDefinition,
  type WorkspaceFolder,
} from 'vscode';

/** A task of type `lugwork` as it stands in `tasks.json`. */
interface CheckDefinition extends TaskDefinition {
  readonly type: 'lugwork';
  /** What is checked, relative to the folder; the whole folder where nothing is said. */
  readonly path?: string;
  /** Warnings fail the task too. */
  readonly strict?: boolean;
}

/** Registers the tasks; `command` is the bundle of the command line tool. */
export function registerTasks(command: string): Disposable {
  return tasks.registerTaskProvider('lugwork', {
    provideTasks: () => (workspace.workspaceFolders ?? []).map((folder) => createTask(command, { type: 'lugwork' }, folder)),
    resolveTask: (task) => createTask(command, task.definition as CheckDefinition, task.scope ?? TaskScope.Workspace),
  });
}

function createTask(command: string, definition: CheckDefinition, scope: WorkspaceFolder | TaskScope): Task {
  const words = [command, 'check', definition.path ?? '.', ...(definition.strict === true ? ['--strict'] : [])];
  const folder = typeof scope === 'object' ? scope : workspace.workspaceFolders?.[0];
  // On the desktop the extension host is the editor's own program; this makes it behave as Node.
  const execution = new ProcessExecution(process.execPath, words, {
    cwd: folder?.uri.fsPath,
    env: { ELECTRON_RUN_AS_NODE: '1' },
  });
  const task = new Task(
    definition,
    scope,
    definition.path === undefined ? 'check' : `check ${definition.path}`,
    'lugwork',
    execution,
    '$lugwork',
  );
  task.group = TaskGroup.Test;
  task.detail = 'lugwork check';
  return task;
}
