namespace FuelHistory.Core.Assessment;

/// <summary>Steps up add up to at most Max, steps down to at most -Min, apart from each other; the level is up - down (model.md 3).</summary>
internal readonly record struct Accumulator(int Min, int Max)
{
    private int Downs => 1 - Min;

    public int States => (Max + 1) * Downs;

    public bool OneWay => Min == 0 || Max == 0;

    public int Add(int state, int step)
    {
        int up = state / Downs, down = state % Downs;
        return step >= 0
            ? (Math.Min(Max, up + step) * Downs) + down
            : (up * Downs) + Math.Min(-Min, down - step);
    }

    public int Level(int state) => (state / Downs) - (state % Downs);

    public int[] Levels()
    {
        Accumulator self = this;
        return [.. Enumerable.Range(0, States).Select(s => self.Level(s))];
    }
}
