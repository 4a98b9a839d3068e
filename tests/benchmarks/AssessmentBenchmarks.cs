using BenchmarkDotNet.Attributes;
using FuelHistory.Core.Assessment;
using FuelHistory.Core.Inference;
using FuelHistory.Core.Life;

namespace FuelHistory.Benchmarks;

/// <summary>One assessment with three events present, twelve absent and ten findings, in process, the fault model kept compiled; beside a
/// floor: one bare pass over tables of the same size.</summary>
[MemoryDiagnoser]
public class AssessmentBenchmarks
{
    private readonly CompiledModel _model = Bench.Model();
    private readonly AssessmentInput _input = Bench.Input();
    private readonly AssessmentInput _four = Bench.FourStretches();
    private Situation _situation = null!;
    private Worlds _worlds = null!;
    private double[] _tables = [];

    [GlobalSetup]
    public void Setup()
    {
        _worlds = Parts();
        _situation = PutTogether();
        _tables = new double[_situation.Entries()];
        Array.Fill(_tables, 0.5);
    }

    [Benchmark(Baseline = true)]
    public double Floor()
    {
        double sum = 0;
        foreach (double entry in _tables)
        {
            sum += entry;
        }

        return sum;
    }

    /// <summary>Life priors of all components from the record.</summary>
    [Benchmark]
    public object LifePriors() => Parts();

    /// <summary>P(bad) of everything.</summary>
    [Benchmark]
    public object Bad() => PutTogether().States()!;

    [Benchmark]
    public double RankingByExplains()
    {
        Ranking ranking = Ranking.Of(PutTogether())!;
        return _model.Index.Parts.Sum(p => ranking.Explains(p.Index));
    }

    /// <summary>Everything: priors, ranking, reasons, next checks, plan.</summary>
    [Benchmark]
    public object Whole() => Assess.Run(_model, _input);

    [Benchmark]
    public object WholeInFourStretches() => Assess.Run(_model, _four);

    private Worlds Parts()
    {
        Investigation investigation = Investigation.From(_model.Index, _input);
        var life = new LifePrior(_model.Source, investigation.Past(), investigation.FirstDay, investigation.RanWell());
        return Worlds.From(_model.Index, investigation, life);
    }

    private Situation PutTogether()
    {
        var evidence = new EvidenceList(_model.Index, Investigation.From(_model.Index, _input), _model.Leaks);
        return new Situation(_model.Index, _model.Networks, _worlds, evidence.Items, evidence.Complaint, false);
    }
}

/// <summary>All marginals of networks of textbook size (37 and 76 variables), the tree kept.</summary>
public class TextbookBenchmarks
{
    private Network _network = null!;
    private JunctionTree _tree = null!;

    [Params(37, 76)]
    public int Variables { get; set; }

    [GlobalSetup]
    public void Setup()
    {
        var random = new Random(Variables);
        _network = new Network();
        for (int v = 0; v < Variables; v++)
        {
            _network.AddVariable(random.Next(2, 4));
        }

        for (int v = 0; v < Variables; v++)
        {
            int[] scope = [.. Enumerable.Range(Math.Max(0, v - 6), Math.Min(v, 6)).OrderBy(_ => random.Next()).Take(random.Next(0, 4)), v];
            _network.AddFactor(scope, [.. Enumerable.Range(0, scope.Aggregate(1, (size, x) => size * _network.States[x])).Select(_ => 0.05 + random.NextDouble())]);
        }

        _tree = JunctionTree.Compile(_network.States, [.. _network.Factors.Select(f => f.Scope)])!;
    }

    [Benchmark]
    public double AllMarginals()
    {
        using Propagation run = _tree.Propagate(_network.Factors);
        double sum = 0;
        for (int v = 0; v < Variables; v++)
        {
            sum += run.Marginal(v)[0];
        }

        return sum;
    }
}
