/** Light or dark as the reader's system says, under the names by which the panels' pieces know the editor's theme. */

export function followSystemTheme(): void {
  const [dark, contrast] = [matchMedia('(prefers-color-scheme: dark)'), matchMedia('(prefers-contrast: more)')];
  const follow = (): void => {
    const { classList } = document.body;
    classList.toggle('vscode-dark', dark.matches);
    classList.toggle('vscode-light', !dark.matches);
    classList.toggle('vscode-high-contrast', contrast.matches);
    classList.toggle('vscode-high-contrast-light', contrast.matches && !dark.matches);
  };
  for (const query of [dark, contrast]) query.addEventListener('change', follow);
  follow();
}
