namespace FuelHistory.Core.LeakDown;

/// <summary>How a point of the integral is to be drawn on: the laws, collapse in its three cases.</summary>
internal enum LeakForm { Seep, Orifice, EmptyFromStart, RunsEmpty, EmptyLater, Settle }

/// <summary>One point of the integral with its share of it.</summary>
/// <param name="A">When the store runs empty (time constants), or the settling time (minutes).</param>
/// <param name="B">Share kept after settling.</param>
internal readonly record struct LeakNode(LeakForm Form, int Soak, double Tau, double A, double B, double Weight)
{
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
        LeakForm.Seep or LeakForm.EmptyLater => LeakLaws.Seep(minutes, Tau),
        LeakForm.Orifice => LeakLaws.Orifice(minutes, Tau),
        LeakForm.EmptyFromStart => LeakLaws.Collapse(minutes, Tau, 0),
        LeakForm.RunsEmpty => LeakLaws.Collapse(minutes, Tau, A),
        _ => LeakLaws.Settle(minutes, Tau, B, A),
    });
}

/// <summary>Points gathered while integrating; an inner integral's points get the outer one's weight afterwards.</summary>
internal sealed class LeakNodes
{
    private readonly List<LeakNode> _nodes = [];

    public int Count => _nodes.Count;

    public LeakNode this[int i] => _nodes[i];

    public void Add(LeakNode node) => _nodes.Add(node);

    public void AddAll(LeakNodes nodes) => _nodes.AddRange(nodes._nodes);

    public void Scale(int from, double factor)
    {
        for (int i = from; i < _nodes.Count; i++)
        {
            _nodes[i] = _nodes[i] with { Weight = _nodes[i].Weight * factor };
        }
    }
}
