namespace FuelHistory.Core.LeakDown;

/// <summary>How a point of the integral is to be drawn on: the laws, collapse in its three cases.</summary>
internal enum LeakForm { Seep, Orifice, EmptyFromStart, RunsEmpty, EmptyLater, EmptyAtBar, Settle }

/// <summary>One point of the integral with its share of it.</summary>
/// <param name="A">When the store runs empty (time constants), at which pressure (bar), or the settling time (minutes).</param>
/// <param name="B">Share kept after settling.</param>
internal readonly record struct LeakNode(LeakForm Form, int Soak, double Tau, double A, double B, double Weight)
{
    /// <summary>Which of <see cref="LeakLaws.Drops"/> comes on top; -1: none.</summary>
    public int Drop { get; init; } = -1;

    public LeakLaw Law => Form switch
    {
        LeakForm.Seep => LeakLaw.Seep,
        LeakForm.Orifice => LeakLaw.Orifice,
        LeakForm.Settle => LeakLaw.Settle,
        _ => LeakLaw.Collapse,
    };

    /// <summary>Pressure with hold pressure 1, heat soak included; a store that empties later is taken as not yet empty.</summary>
    public double Curve(double minutes) => LeakLaws.Soak(minutes, LeakLaws.Soaks[Soak].Rise) * (Form switch
    {
        LeakForm.Seep or LeakForm.EmptyLater or LeakForm.EmptyAtBar => LeakLaws.Seep(minutes, Tau),
        LeakForm.Orifice => LeakLaws.Orifice(minutes, Tau),
        LeakForm.EmptyFromStart => LeakLaws.Collapse(minutes, Tau, 0),
        LeakForm.RunsEmpty => LeakLaws.Collapse(minutes, Tau, A),
        _ => LeakLaws.Settle(minutes, Tau, B, A),
    });
}

/// <summary>Takes the points while integrating; the weight is what all the outer integrals give this one.</summary>
/// <param name="Least">Points that add no more than this are not kept.</param>
/// <param name="Drop">Of the looks' density that the points come from.</param>
internal readonly record struct LeakNodes(List<LeakNode>? Into, double Weight, double Least, int Drop = -1)
{
    public static readonly LeakNodes NotWanted = new(null, 0, 0);

    public LeakNodes Times(double factor) => this with { Weight = Weight * factor };

    public void Add(LeakNode node)
    {
        double weight = Weight * node.Weight;
        if (weight > Least)
        {
            Into?.Add(node with { Weight = weight, Drop = Drop });
        }
    }
}
