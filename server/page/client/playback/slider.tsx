/** A number that is slid, with what it means in words. */
export const Slider = (props: {
  readonly label: string;
  readonly shown: string;
  readonly min: number;
  readonly max: number;
  readonly step: number;
  readonly value: number;
  readonly onValue: (value: number) => void;
}) => (
  <label class="slider">
    <span>{props.label}</span>
    <input
      type="range"
      min={props.min}
      max={props.max}
      step={props.step}
      value={props.value}
      aria-valuetext={props.shown}
      onInput={({ currentTarget }) => props.onValue(Number(currentTarget.value))}
    />
    <span class="shown" aria-hidden="true">
      {props.shown}
    </span>
  </label>
);
