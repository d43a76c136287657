/** Chooses one of several values, each told in words. */
export const SelectList = <Value extends string | number>({
  label,
  value,
  values,
  tell = String,
  onChange,
}: {
  readonly label: string;
  readonly value: Value;
  readonly values: readonly Value[];
  readonly tell?: (value: Value) => string;
  readonly onChange: (value: Value) => void;
}) => (
  <select
    aria-label={label}
    value={`${value}`}
    onChange={({ currentTarget }) => onChange(values[currentTarget.selectedIndex]!)}
  >
    {values.map((each) => (
      <option key={each} value={`${each}`}>
        {tell(each)}
      </option>
    ))}
  </select>
);
