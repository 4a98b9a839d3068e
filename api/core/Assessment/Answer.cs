namespace FuelHistory.Core.Assessment;

/// <summary>One answer to a yes/no question in one world, as two signed terms: <see cref="Silent"/> weighs "all causes of this world
/// are silent", <see cref="Ignored"/> weighs 1. Absent: 0 and 1. Present: 1 and -1.</summary>
/// <param name="Acting">Variable that says whether an intermittent fault was acting; -1: it was.</param>
/// <param name="Open">Both terms are needed, so a two-state variable stands for the choice.</param>
internal sealed record Answer(int World, double Ignored, double Silent, bool Open, int Acting)
{
    /// <param name="counts">False: the answer is left out; its shape in the network stays, its numbers say nothing.</param>
    public static Answer Of(int world, bool present, bool sure, int acting, bool counts = true)
    {
        // "not sure": half itself, half the mean over the two outcomes (MODEL.md 4)
        (double ignored, double silent) = (present, sure) switch
        {
            (true, true) => (1.0, -1.0),
            (false, true) => (0.0, 1.0),
            (true, false) => (0.75, -0.5),
            _ => (0.25, 0.5),
        };
        bool open = present || !sure;
        return counts ? new(world, ignored, silent, open, acting) : new(world, 1, 0, open, acting) { Muted = !open };
    }

    /// <summary>A plain absent answer that is left out.</summary>
    public bool Muted { get; private init; }

    /// <summary>All causes must be silent, for certain.</summary>
    public bool Closed => !Open && !Muted;
}
