using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace FuelHistory.Core.Inference;

/// <summary>Per entry of a clique: the entry of a table over some of its variables. Steps add up variable by variable, so that two short
/// lists do, one for the slower and one for the faster variables; a list as long as the clique would be larger than its table.</summary>
internal sealed class EntryMap
{
    /// <summary>Neighbouring entries that are worth a loop of their own.</summary>
    private const int Worth = 8, Block = 64;

    private readonly int[] _slow;

    /// <summary>Empty where the kind says it all.</summary>
    private readonly int[] _fast;
    private readonly int _run;
    private readonly Kind _kind;

    /// <summary>How the faster variables run through the table.</summary>
    private enum Kind
    {
        /// <summary>They are not in it.</summary>
        Same,

        /// <summary>They are its fastest, in the same order.</summary>
        Running,

        Any,
    }

    /// <param name="sizes">States of the clique's variables, the last running fastest.</param>
    /// <param name="steps">Per variable: how far one state more moves in the table; 0: not in it.</param>
    private EntryMap(ReadOnlySpan<int> sizes, ReadOnlySpan<int> steps)
    {
        (int pure, _kind) = Pure(sizes, steps);
        int first = pure, block = 1;
        for (int i = pure; i < sizes.Length; i++)
        {
            block *= sizes[i];
        }

        if (block < Worth)
        {
            _kind = Kind.Any;
            for (; first > 0 && block < Block; first--)
            {
                block *= sizes[first - 1];
            }
        }

        _run = block;
        _fast = _kind == Kind.Any ? Grown(sizes[first..], steps[first..]) : [];
        _slow = Grown(sizes[..first], steps[..first]);
    }

    /// <summary>Entries of the lists.</summary>
    public int Length => _slow.Length + _fast.Length;

    /// <summary>The map of these states and steps; the same one each time, as long as it is kept.</summary>
    public static EntryMap Of(ReadOnlySpan<int> sizes, ReadOnlySpan<int> steps)
    {
        Span<int> words = stackalloc int[2 * sizes.Length];
        var key = MapKey.Of(sizes, steps, words);
        return KnownMaps.Find(key) ?? KnownMaps.Keep(key, new EntryMap(sizes, steps));
    }

    public int Entries => _slow.Length * _run;

    public int this[int entry] => _slow[entry / _run] + _kind switch
    {
        Kind.Same => 0,
        Kind.Running => entry % _run,
        _ => _fast[entry % _run],
    };

    /// <summary>Multiplies every entry of the clique's table by the one that it maps to.</summary>
    public void Multiply(Span<double> table, ReadOnlySpan<double> by)
    {
        ArgumentOutOfRangeException.ThrowIfNotEqual(Entries, table.Length);
        int run = _run;
        for (int s = 0; s < _slow.Length; s++)
        {
            Span<double> target = table.Slice(s * run, run);
            switch (_kind)
            {
                case Kind.Same:
                    Scale(target, by[_slow[s]]);
                    break;
                case Kind.Running:
                    MultiplyEach(target, by.Slice(_slow[s], run));
                    break;
                default:
                    MultiplyAny(target, by[_slow[s]..]);
                    break;
            }
        }
    }

    /// <summary>Adds every entry of the clique's table to the one that it maps to, in the order of the clique.</summary>
    public void AddUp(ReadOnlySpan<double> table, Span<double> sums)
    {
        ArgumentOutOfRangeException.ThrowIfNotEqual(Entries, table.Length);
        int run = _run;
        for (int s = 0; s < _slow.Length; s++)
        {
            ReadOnlySpan<double> source = table.Slice(s * run, run);
            switch (_kind)
            {
                case Kind.Same:
                    double sum = sums[_slow[s]];
                    foreach (double entry in source)
                    {
                        sum += entry;
                    }

                    sums[_slow[s]] = sum;
                    break;
                case Kind.Running:
                    AddEach(source, sums.Slice(_slow[s], run));
                    break;
                default:
                    AddAny(source, sums[_slow[s]..]);
                    break;
            }
        }
    }

    /// <summary>The longest run of fastest variables that are all outside the table, or all its fastest.</summary>
    private static (int First, Kind Kind) Pure(ReadOnlySpan<int> sizes, ReadOnlySpan<int> steps)
    {
        int first = sizes.Length, block = 1;
        if (first == 0 || steps[^1] == 0)
        {
            for (; first > 0 && steps[first - 1] == 0; first--)
            {
            }

            return (first, Kind.Same);
        }

        for (; first > 0 && steps[first - 1] == block; first--)
        {
            block *= sizes[first - 1];
        }

        return (first, Kind.Running);
    }

    /// <summary>Grown variable by variable from the fastest: each block repeats the one before, shifted by the step.</summary>
    private static int[] Grown(ReadOnlySpan<int> sizes, ReadOnlySpan<int> steps)
    {
        int size = 1, filled = 1;
        foreach (int states in sizes)
        {
            size *= states;
        }

        var map = new int[size];
        for (int i = sizes.Length - 1; i >= 0; i--)
        {
            int block = filled;
            for (int s = 1; s < sizes[i]; s++)
            {
                for (int j = 0; j < block; j++)
                {
                    map[filled++] = map[j] + (s * steps[i]);
                }
            }
        }

        return map;
    }

    public static void Scale(Span<double> target, double by)
    {
        int i = 0;
        for (; i <= target.Length - Vector<double>.Count; i += Vector<double>.Count)
        {
            (new Vector<double>(target[i..]) * by).CopyTo(target[i..]);
        }

        for (; i < target.Length; i++)
        {
            target[i] *= by;
        }
    }

    private static void MultiplyEach(Span<double> target, ReadOnlySpan<double> by)
    {
        int i = 0;
        for (; i <= target.Length - Vector<double>.Count; i += Vector<double>.Count)
        {
            (new Vector<double>(target[i..]) * new Vector<double>(by[i..])).CopyTo(target[i..]);
        }

        for (; i < target.Length; i++)
        {
            target[i] *= by[i];
        }
    }

    private static void AddEach(ReadOnlySpan<double> source, Span<double> sums)
    {
        int i = 0;
        for (; i <= source.Length - Vector<double>.Count; i += Vector<double>.Count)
        {
            (new Vector<double>(sums[i..]) + new Vector<double>(source[i..])).CopyTo(sums[i..]);
        }

        for (; i < source.Length; i++)
        {
            sums[i] += source[i];
        }
    }

    // The steps were made for just this table, so that the bounds need no second look: most of the time of a propagation is spent here.
    private void MultiplyAny(Span<double> target, ReadOnlySpan<double> by)
    {
        ref double t = ref MemoryMarshal.GetReference(target);
        ref double f = ref MemoryMarshal.GetReference(by);
        ref int m = ref MemoryMarshal.GetArrayDataReference(_fast);
        for (int i = 0; i < _fast.Length; i++)
        {
            Unsafe.Add(ref t, i) *= Unsafe.Add(ref f, Unsafe.Add(ref m, i));
        }
    }

    private void AddAny(ReadOnlySpan<double> source, Span<double> sums)
    {
        ref double from = ref MemoryMarshal.GetReference(source);
        ref double to = ref MemoryMarshal.GetReference(sums);
        ref int m = ref MemoryMarshal.GetArrayDataReference(_fast);
        for (int i = 0; i < _fast.Length; i++)
        {
            Unsafe.Add(ref to, Unsafe.Add(ref m, i)) += Unsafe.Add(ref from, i);
        }
    }
}
