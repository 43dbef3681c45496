interface ChooserProps {
  /** Whether there are captures already: then the chooser is small, and can add to them. */
  readonly hasCaptures: boolean;
  readonly usesFileTime: boolean;
  readonly onFiles: (files: readonly File[], keepsCaptures: boolean) => void;
  readonly onFileTime: (isReceived: boolean) => void;
  readonly onClear: () => void;
}

/** Where captures and sheets are chosen; they can also be dropped anywhere on the page. */
export function Chooser({ hasCaptures, usesFileTime, onFiles, onFileTime, onClear }: ChooserProps) {
  return (
    <section class={hasCaptures ? 'chooser small' : 'chooser'} aria-label="Choose files">
      <FileButton
        id="choose"
        label={hasCaptures ? 'Check another' : 'Choose captures'}
        onFiles={(files) => onFiles(files, false)}
      />
      {hasCaptures ? (
        <>
          <FileButton id="add" label="Add captures or sheets" onFiles={(files) => onFiles(files, true)} />
          <button type="button" onClick={onClear}>
            Start again
          </button>
        </>
      ) : (
        <p>
          Or drop files and folders here: one capture or thousands, packed with gzip or not, and machines.csv, plan.csv
          and the captures list if you have them.
        </p>
      )}
      <p class="choice">
        <input
          type="checkbox"
          id="file-time"
          checked={usesFileTime}
          onChange={(event) => onFileTime((event.target as HTMLInputElement).checked)}
        />
        <label for="file-time">Just taken: hold the machine’s clock against the time of each file</label>
      </p>
    </section>
  );
}

interface FileButtonProps {
  readonly id: string;
  readonly label: string;
  readonly onFiles: (files: readonly File[]) => void;
}

function FileButton({ id, label, onFiles }: FileButtonProps) {
  return (
    <span class="file-button">
      <input
        type="file"
        id={id}
        multiple
        onChange={(event) => {
          const input = event.target as HTMLInputElement;
          const files = [...(input.files ?? [])];
          // So that the same file can be chosen again after it was read anew.
          input.value = '';
          if (files.length > 0) onFiles(files);
        }}
      />
      <label for={id}>{label}</label>
    </span>
  );
}
