namespace FuelHistory.Core.Assessment;

/// <summary>What is said of some cells of an event in one world, as two signed terms: <see cref="Silent"/> weighs "all causes of these cells
/// are silent", <see cref="Ignored"/> weighs 1. Absent: 0 and 1. Present: 1 and -1.</summary>
/// <param name="Cells">Bit set of the cells: present means one of them at least, absent means none.</param>
/// <param name="Acting">Variable that says whether an intermittent fault was acting; -1: it was.</param>
/// <param name="Open">Both terms are needed, so a two-state variable stands for the choice.</param>
internal sealed record Answer(int World, ulong Cells, double Ignored, double Silent, bool Open, int Acting)
{
    /// <param name="counts">False: the answer is left out; its shape in the network stays, its numbers say nothing.</param>
    public static Answer Of(int world, ulong cells, bool present, bool sure, int acting, bool counts = true)
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
        return counts ? new(world, cells, ignored, silent, open, acting) : new(world, cells, 1, 0, open, acting) { Muted = !open };
    }

    /// <summary>The cells are silent where a variable of somebody else's is in this state or a later one.</summary>
    public static Answer When(int variable, int from, int world, ulong cells, int acting) =>
        new(world, cells, 1, 1, true, acting) { Gate = variable, GateFrom = from };

    /// <summary>The variable of <see cref="When"/>; -1: the answer has one of its own, or none.</summary>
    public int Gate { get; private init; } = -1;

    public int GateFrom { get; private init; } = 1;

    /// <summary>A plain absent answer that is left out.</summary>
    public bool Muted { get; private init; }

    /// <summary>All causes must be silent, for certain.</summary>
    public bool Closed => !Open && !Muted;
}
